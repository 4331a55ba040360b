import type { Measured } from '../../../src/ledger/weather/columns.ts'

/** A moment of the invented weather that all exports here are made from. */
export interface Moment {
  year: string
  month: string
  day: string
  hour: string
  minute: string
  /** °C, %, mm in this row, m/s, and minutes of leaf wetness in this row. */
  t: number
  h: number
  rain: number
  wind: number
  wet: number
  /** Rain of the day so far, and since the station was set up, mm. */
  today: number
  total: number
  /** Milliseconds since 1970 of this moment, for a site in Berlin in summer. */
  epoch: number
}

export const two = (value: number) => String(value).padStart(2, '0')
export const fixed = (value: number, digits = 1) => value.toFixed(digits)
export const comma = (value: number, digits = 1) => value.toFixed(digits).replace('.', ',')
export const f = (celsius: number) => fixed((celsius * 9) / 5 + 32)
export const inches = (mm: number) => fixed(mm / 25.4, 3)
export const mph = (metres: number) => fixed(metres * 2.236936)
/** `1:30 PM` */
export const half = ({ hour, minute }: Moment) =>
  `${Number(hour) % 12 || 12}:${minute} ${Number(hour) < 12 ? 'AM' : 'PM'}`

/** The weather of an hour, counted from midnight on 12 June 2026. */
export function truth(hours: number): Record<'t' | 'h' | 'rain' | 'wind' | 'wet', number> {
  const hour = hours % 24
  const t = 14 + Math.round(60 * Math.sin(((hour - 9) / 24) * 2 * Math.PI)) / 10
  const isWet = hours % 17 === 3 || hours % 17 === 4
  const rain = isWet ? 1.2 : 0
  return { t, h: 60 + ((hours * 7) % 35), rain, wind: 1 + (hours % 5), wet: isWet ? 60 : 0 }
}

/** Rows every so many minutes over so many hours from 12 June 2026 on, in summer time of Berlin. */
export function moments(step: number, hours = 72): Moment[] {
  const rows: Moment[] = []
  let today = 0
  let total = 412.6
  for (let minutes = 0; minutes < hours * 60; minutes += step) {
    const at = Math.floor(minutes / 60)
    const { t, h, rain, wind, wet } = truth(at)
    const part = Math.min(1, step / 60)
    const fell = rain * part
    if (minutes % 1440 === 0) today = 0
    today += fell
    total += fell
    rows.push({
      year: '2026',
      month: '06',
      day: two(12 + Math.floor(minutes / 1440)),
      hour: two(at % 24),
      minute: two(minutes % 60),
      t,
      h,
      rain: fell,
      wind,
      wet: wet * part,
      today,
      total,
      epoch: Date.UTC(2026, 5, 12, 0, minutes) - 2 * 3_600_000,
    })
  }
  return rows
}

export const DAYS = ['12', '13', '14'].map((day, at) => {
  const hours = Array.from({ length: 24 }, (_, hour) => truth(at * 24 + hour))
  return {
    day,
    min: Math.min(...hours.map(({ t }) => t)),
    max: Math.max(...hours.map(({ t }) => t)),
    rain: hours.reduce((sum, { rain }) => sum + rain, 0),
  }
})

export interface StationExport {
  name: string
  text: string | Uint8Array
  /** The readings expected from it. */
  reads: readonly Measured[]
  args?: Record<string, unknown>
  /** Rows expected; 72 hours, or 3 days. */
  rows?: number
  units?: 'us'
}

const table = (head: string | string[], step: number, row: (at: Moment) => string, end = '\n') =>
  `${[...[head].flat(), ...moments(step).map(row)].join(end)}${end}`
const iso = ({ year, month, day, hour, minute }: Moment) => `${year}-${month}-${day} ${hour}:${minute}`
const dotted = ({ year, month, day }: Moment) => `${day}.${month}.${year}`
const slashed = ({ year, month, day }: Moment) => `${day}/${month}/${year}`
const american = ({ year, month, day }: Moment) => `${Number(month)}/${Number(day)}/${year}`
const clock = ({ hour, minute }: Moment) => `${hour}:${minute}`
/** The time on a clock that is some hours ahead of UTC. */
const utc = ({ epoch }: Moment, ahead: number) =>
  new Date(epoch + ahead * 3_600_000).toISOString().slice(0, 16).replace('T', ' ')
const utf16 = (text: string, big: boolean) => {
  const bytes = Buffer.from(`\ufeff${text}`, 'utf16le')
  return big ? bytes.swap16() : bytes
}
const daily = (head: string, row: (day: (typeof DAYS)[number]) => string) =>
  `${[head, ...DAYS.map(row)].join('\n')}\n`
const THR: readonly Measured[] = ['temperature', 'humidity', 'rain']
const MONTH = 'Jun'

/** Exports of stations that do not exist, each laid out differently. */
export const EXPORTS: readonly StationExport[] = [
  {
    name: 'German, 10 minutes, semicolons and commas, date and clock apart',
    text: table(
      'Datum;Uhrzeit;Lufttemp. °C;rel. Feuchte %;Regen mm',
      10,
      (m) => `${dotted(m)};${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'French, 15 minutes',
    text: table(
      'Date/heure;Température (°C);Humidité (%);Pluie (mm);Vent moyen (km/h);Rafale (km/h)',
      15,
      (m) => `${slashed(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind * 3.6)};40`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'French clock with h',
    text: table(
      'Jour;Heure;Temp. moy. (°C);Hygrométrie (%);Précipitations (mm)',
      60,
      (m) => `${slashed(m)};${m.hour}h${m.minute};${comma(m.t)};${m.h};${comma(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'Italian, hourly',
    text: table(
      'Data;Ora;Temperatura aria;Umidità relativa;Precipitazione;Vento (m/s);Bagnatura fogliare (min)',
      60,
      (m) => `${slashed(m)};${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)};${m.wet}`,
    ),
    reads: [...THR, 'wind', 'wetness'],
  },
  {
    name: 'Spanish, 30 minutes',
    text: table(
      'Fecha;Hora;Temperatura (ºC);Humedad relativa (%);Precipitación (mm);Velocidad del viento (m/s);Dirección del viento',
      30,
      (m) => `${slashed(m)};${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)};NE`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'Dutch, commas between',
    text: table(
      'Datum,Tijd,Temperatuur,Luchtvochtigheid,Neerslag,Windsnelheid (km/u)',
      60,
      (m) =>
        `${m.day}-${m.month}-${m.year},${clock(m)},${fixed(m.t)},${m.h},${fixed(m.rain)},${fixed(m.wind * 3.6)}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: '°F, inches, mph and inHg, month first, AM and PM',
    text: table(
      'Date,Time,Air Temp (°F),Humidity (%),Rain (in),Wind (mph),Barometer (inHg)',
      15,
      (m) => `${american(m)},${half(m)},${f(m.t)},${m.h},${fixed(m.rain / 25.4, 4)},${mph(m.wind)},29.92`,
    ),
    reads: [...THR, 'wind'],
    units: 'us',
  },
  {
    name: 'snake case with units behind, in °F',
    text: table(
      'observed_at,air_temp_f,rel_hum,precip_in,wind_speed_mph,gust_mph,pressure_inhg',
      60,
      (m) => `${iso(m)}:00,${f(m.t)},${m.h},${inches(m.rain)},${mph(m.wind)},20,29.9`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'camel case',
    text: table(
      'dateTime,airTemperature,relativeHumidity,precipitation,windSpeedKmh,leafWetnessMinutes',
      60,
      (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.rain)},${fixed(m.wind * 3.6)},${m.wet}`,
    ),
    reads: [...THR, 'wind', 'wetness'],
  },
  {
    name: 'seconds since 1970',
    text: table('epoch,temp,rh,rain', 60, (m) => `${m.epoch / 1000},${fixed(m.t)},${m.h},${fixed(m.rain)}`),
    reads: THR,
  },
  {
    name: 'milliseconds since 1970, 5 minutes',
    text: table('timestamp;temp;rh;rain', 5, (m) => `${m.epoch};${fixed(m.t)};${m.h};${fixed(m.rain)}`),
    reads: THR,
  },
  {
    name: 'units in the cells',
    text: table(
      'Time,Temp,Humidity,Rain,Wind',
      60,
      (m) => `${iso(m)},${fixed(m.t)} °C,${m.h} %,${fixed(m.rain)} mm,${fixed(m.wind * 3.6)} km/h`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'units of inches in the cells, without a space',
    text: table(
      'When,Outside,Humidity,Rainfall,Wind speed',
      60,
      (m) => `${american(m)} ${half(m)},${f(m.t)}°F,${m.h}%,${inches(m.rain)}in,${mph(m.wind)}mph`,
    ),
    reads: [...THR, 'wind'],
    args: { how: { columns: { temperature: 'Outside' } } },
  },
  {
    name: 'units and commas in the cells',
    text: table(
      'Zeit;Temperatur;Feuchte;Niederschlag',
      60,
      (m) => `${dotted(m)} ${clock(m)};${comma(m.t)} °C;${m.h} %;${comma(m.rain)} mm`,
    ),
    reads: THR,
  },
  {
    name: 'humidity as a share of 1',
    text: table(
      'time,temp_c,humidity,rain_mm',
      60,
      (m) => `${iso(m)},${fixed(m.t)},${fixed(m.h / 100, 2)},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'a row of names and a row of units',
    text: table(
      ['Time,Temperature,Humidity,Rain,Wind', ',°F,%,in,mph'],
      60,
      (m) => `${iso(m)},${f(m.t)},${m.h},${inches(m.rain)},${mph(m.wind)}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'a row of groups, of names and of units',
    text: table(
      ['Time;Outdoor;Outdoor;Indoor;Gauge', ';Temp;Hum;Temp;Rain', ';C;%;C;mm'],
      60,
      (m) => `${iso(m)};${fixed(m.t)};${m.h};21.0;${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'UTF-8 with its mark, line ends of Windows',
    text: `\ufeff${table('Time,Temp °C,Hum %,Rain mm', 60, (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.rain)}`, '\r\n')}`,
    reads: THR,
  },
  {
    name: 'UTF-16, small end first',
    text: utf16(
      table(
        'Zeit\tTemp °C\tFeuchte %\tRegen mm',
        60,
        (m) => `${dotted(m)} ${clock(m)}\t${comma(m.t)}\t${m.h}\t${comma(m.rain)}`,
      ),
      false,
    ),
    reads: THR,
  },
  {
    name: 'UTF-16, big end first',
    text: utf16(
      table('Time;Temp °C;Hum %;Rain mm', 30, (m) => `${iso(m)};${fixed(m.t)};${m.h};${fixed(m.rain)}`),
      true,
    ),
    reads: THR,
  },
  {
    name: 'Windows-1252',
    text: Buffer.from(
      table(
        'Zeit;Außentemperatur °C;Außenfeuchte %;Regen l/m²',
        60,
        (m) => `${dotted(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)}`,
      ),
      'latin1',
    ),
    reads: THR,
  },
  {
    name: 'days by High and Low in °C',
    text: daily(
      'Date,High,Low,Rain',
      ({ day, max, min, rain }) => `2026-06-${day},${fixed(max)},${fixed(min)},${fixed(rain)}`,
    ),
    reads: ['min', 'max', 'rain'],
  },
  {
    name: 'days by High and Low in °F and inches, month first',
    text: daily(
      'Day,High °F,Low °F,Precip (in)',
      ({ day, max, min, rain }) => `6/${day}/2026,${f(max)},${f(min)},${inches(rain)}`,
    ),
    reads: ['min', 'max', 'rain'],
    units: 'us',
  },
  {
    name: 'days in German',
    text: daily(
      'Tag;Höchsttemperatur;Tiefsttemperatur;Mitteltemperatur;Niederschlag',
      ({ day, max, min, rain }) => `${day}.06.2026;${comma(max)};${comma(min)};14,0;${comma(rain)}`,
    ),
    reads: ['min', 'max', 'mean', 'rain'],
  },
  {
    name: 'days in French',
    text: daily(
      'Date;T. maxi (°C);T. mini (°C);Pluie (mm)',
      ({ day, max, min, rain }) => `${day}/06/2026;${comma(max)};${comma(min)};${comma(rain)}`,
    ),
    reads: ['min', 'max', 'rain'],
  },
  {
    name: 'days in Italian',
    text: daily(
      'Giorno;Temperatura massima;Temperatura minima;Pioggia',
      ({ day, max, min, rain }) => `${day}/06/2026;${comma(max)};${comma(min)};${comma(rain)}`,
    ),
    reads: ['min', 'max', 'rain'],
  },
  {
    name: 'days in Spanish',
    text: daily(
      'Día;Tª máxima;Tª mínima;Lluvia (mm)',
      ({ day, max, min, rain }) => `${day}-06-26;${comma(max)};${comma(min)};${comma(rain)}`,
    ),
    reads: ['min', 'max', 'rain'],
    args: { how: { dates: 'day-first' } },
  },
  {
    name: 'rain counted over the day',
    text: table(
      'Time,Temp °C,Hum %,Rain today mm',
      15,
      (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.today)}`,
    ),
    reads: THR,
    args: { rain: 'counter' },
  },
  {
    name: 'rain counted since the station was set up',
    text: table(
      'Time,Temp °C,Hum %,Rain total mm',
      30,
      (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.total)}`,
    ),
    reads: THR,
    args: { rain: 'counter' },
  },
  {
    name: 'a rate of rain beside the rain',
    text: table(
      'Time,Temp °C,Hum %,Rain rate mm/h,Rain mm',
      10,
      (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.rain * 6)},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'between upright lines, newest row first',
    text: `time|temp_c|hum|rain_mm\n${moments(20)
      .toReversed()
      .map((m) => `${iso(m)}|${fixed(m.t)}|${m.h}|${fixed(m.rain)}`)
      .join('\n')}\n`,
    reads: THR,
  },
  {
    name: 'times with their offset, and in UTC',
    text: table(
      'time,temp_c,hum,rain_mm',
      60,
      (m) => `${new Date(m.epoch).toISOString()},${fixed(m.t)},${m.h},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'times without marks',
    text: table(
      'time;temp_c;hum;rain_mm',
      60,
      (m) => `${m.year}${m.month}${m.day}${m.hour}${m.minute};${fixed(m.t)};${m.h};${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'the basic form of ISO 8601',
    text: table(
      'time,temp_c,hum,rain_mm',
      60,
      (m) => `${m.year}${m.month}${m.day}T${m.hour}${m.minute}00,${fixed(m.t)},${m.h},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'year, month, day and hour apart',
    text: table(
      'Year,Month,Day,Hour,Temp C,RH %,Rain mm',
      60,
      (m) =>
        `${m.year},${Number(m.month)},${Number(m.day)},${Number(m.hour)},${fixed(m.t)},${m.h},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'months by name',
    text: table(
      'Time,Temp C,RH %,Rain mm',
      60,
      (m) => `${m.day} ${MONTH} ${m.year} ${clock(m)},${fixed(m.t)},${m.h},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'months by name first, in quotes',
    text: table(
      '"Time","Temp C","RH %","Rain mm"',
      60,
      (m) => `"${MONTH} ${Number(m.day)}, ${m.year} ${half(m)}","${fixed(m.t)}","${m.h}","${fixed(m.rain)}"`,
    ),
    reads: THR,
  },
  {
    name: 'lines about the station above, sums below',
    text: `Station: Hillside\nHeight: 210 m\nPeriod: 12.06.2026 - 14.06.2026\n\n${table('Zeit;Temp. °C;Feuchte %;Regen mm', 60, (m) => `${dotted(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)}`)}Summe;;;9,6\nMittel;14,0;77;\n`,
    reads: THR,
  },
  {
    name: 'an empty column at the end of each row, and numbers of rows in front',
    text: table(
      'No;Time;Temp °C;Hum %;Rain mm;',
      60,
      (m) => `${m.epoch % 97};${iso(m)};${fixed(m.t)};${m.h};${fixed(m.rain)};`,
    ),
    reads: THR,
  },
  {
    name: 'decimal commas in quotes between commas',
    text: table(
      'Zeit,Temp °C,Feuchte %,Regen mm',
      60,
      (m) => `${dotted(m)} ${clock(m)},"${comma(m.t)}",${m.h},"${comma(m.rain)}"`,
    ),
    reads: THR,
  },
  {
    name: 'several temperatures, of which the air outdoors is meant',
    text: table(
      'Time,Soil temp °C,Dew point °C,Indoor temp °C,Outdoor temp °C,Feels like °C,Outdoor humidity %,Indoor humidity %,Precipitation mm',
      60,
      (m) => `${iso(m)},15,8,21,${fixed(m.t)},12,${m.h},50,${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'mean, highest and lowest of each row',
    text: table(
      'Time;Air temperature avg [°C];Air temperature max [°C];Air temperature min [°C];Relative humidity avg [%];Precipitation sum [mm]',
      30,
      (m) => `${iso(m)};${fixed(m.t)};${fixed(m.t + 1)};${fixed(m.t - 1)};${m.h};${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'a date, and the hour as a bare number',
    text: table(
      'Date,Hour,T air,RH,Prcp,WS (m/s)',
      60,
      (m) =>
        `${m.year}-${m.month}-${m.day},${Number(m.hour)},${fixed(m.t)},${m.h},${fixed(m.rain)},${m.wind}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'means of ten minutes, and each temperature in two units',
    text: table(
      'Time,Temp 10 min avg °C,Temp 10 min avg °F,Hum 10 min avg %,Rain 10 min mm',
      10,
      (m) => `${iso(m)},${fixed(m.t)},${f(m.t)},${m.h},${fixed(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'a heading whose cells go over several lines',
    text: table(
      '"Date and\ntime","Air\ntemperature\n(°C)","Humidity\n(%)","Rain\n(mm)"',
      60,
      (m) => `"${iso(m)}","${fixed(m.t)}","${m.h}","${fixed(m.rain)}"`,
    ),
    reads: THR,
  },
  {
    name: 'two exports one behind the other, each with its heading',
    text: `${table('Time,Temp °C,Hum %,Rain mm', 60, (m) => `${iso(m)},${fixed(m.t)},${m.h},${fixed(m.rain)}`)
      .split('\n')
      .toSpliced(30, 0, 'Time,Temp °C,Hum %,Rain mm')
      .join('\n')}`,
    reads: THR,
  },
  {
    name: 'Portuguese, radiation and direction beside',
    text: table(
      'Data;Hora;Temperatura do ar (°C);Umidade relativa (%);Precipitação (mm);Velocidade do vento (m/s);Direção do vento (°);Radiação (W/m²)',
      60,
      (m) => `${slashed(m)};${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)};120;0`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'Polish',
    text: table(
      'Data i czas;Temperatura powietrza [°C];Wilgotność [%];Opad [mm];Wiatr [km/h];Ciśnienie [hPa]',
      60,
      (m) => `${iso(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind * 3.6)};1013,2`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'Czech',
    text: table(
      'Datum a čas;Teplota vzduchu °C;Relativní vlhkost %;Srážky mm;Rychlost větru m/s',
      60,
      (m) => `${dotted(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'Hungarian, with a point behind the day',
    text: table(
      'Időpont;Hőmérséklet (°C);Páratartalom (%);Csapadék (mm);Szélsebesség (m/s);Szélirány',
      60,
      (m) =>
        `${m.year}. ${m.month}. ${m.day}. ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)};90`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'Danish, gusts beside',
    text: table(
      'Tid;Temperatur (°C);Luftfugtighed (%);Nedbør (mm);Vind (m/s);Vindstød (m/s)',
      60,
      (m) =>
        `${m.day}-${m.month}-${m.year} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${comma(m.wind)};9`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'short codes, knots, dew point and pressure beside',
    text: table(
      'DATE,HHMM,TMP [C],DEW [C],RHUM,PRCP,WDIR,WSPD [kts],MSLP [hPa]',
      60,
      (m) =>
        `${iso(m).slice(0, 10)},${m.hour}${m.minute},${m.t},9,${m.h},${m.rain || 'T'},120,${fixed((m.wind * 3600) / 1852, 2)},1012`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'units in words',
    text: table(
      'Date Time,Temperature degF,Humidity pct,Rainfall inches,Avg wind miles per hour',
      60,
      (m) => `${iso(m)},${f(m.t)},${m.h},${inches(m.rain)},${mph(m.wind)}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'leaf wetness as 0 or 100 %, 10 minutes',
    text: table(
      'Datum Zeit;Temp °C;Feuchte %;Regen mm;Blattnässe %',
      10,
      (m) => `${dotted(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.rain)};${m.wet ? 100 : 0}`,
    ),
    reads: [...THR, 'wetness'],
  },
  {
    name: 'leaf wetness as yes or no, half an hour',
    text: table(
      'time,temp °C,hum %,rain mm,leaf wet',
      30,
      (m) => `${iso(m)},${m.t},${m.h},${m.rain},${m.wet ? 1 : 0}`,
    ),
    reads: [...THR, 'wetness'],
  },
  {
    name: 'rain in tips, by what was said',
    text: table(
      'Time,Temp °C,Hum %,Rain (0.2 mm tips)',
      60,
      (m) => `${iso(m)},${m.t},${m.h},${Math.round(m.rain / 0.2)}`,
    ),
    reads: THR,
    args: { how: { units: { rain: '0.2 mm' } } },
  },
  {
    name: 'the clock ahead of UTC in the heading, month first with a year of two digits',
    text: table(
      '"#","Date Time, GMT+02:00","Temp, °C","RH, %","Rain, mm"',
      60,
      (m) => `1,${m.month}/${m.day}/26 ${half(m)},${m.t},${m.h},${m.rain}`,
    ),
    reads: THR,
  },
  {
    name: 'winter time all year, as the heading says',
    text: table(
      'Zeit (MEZ);Temp °C;Feuchte %;Regen mm',
      60,
      (m) => `${utc(m, 1)};${comma(m.t)};${m.h};${comma(m.rain)}`,
    ),
    reads: THR,
  },
  {
    name: 'the name of the clock behind each time',
    text: table('time,temp_c,rh_pct,rain_mm', 60, (m) => `${utc(m, 0)} UTC,${m.t},${m.h},${m.rain}`),
    reads: THR,
  },
  {
    name: 'times in UTC, by what was said',
    text: table('time,temp_c,rh_pct,rain_mm', 60, (m) => `${utc(m, 0)},${m.t},${m.h},${m.rain}`),
    reads: THR,
    args: { how: { units: { time: 'UTC' } } },
  },
  {
    name: 'columns apart by spaces',
    text: table(
      'date       time   temp   hum  rain',
      60,
      (m) => `${iso(m)}   ${fixed(m.t).padStart(5)}  ${m.h}  ${m.rain}`,
    ),
    reads: THR,
  },
  {
    name: 'a clock named time, and a day of two-digit year that is not named date',
    text: table(
      'Day,Time,Temp. °C,Hum. %,Rain mm',
      60,
      (m) => `${m.day}/${m.month}/26,${clock(m)},${m.t},${m.h},${m.rain}`,
    ),
    reads: THR,
  },
  {
    name: 'a logger: four lines of heading, names in quotes',
    text: table(
      [
        '"T5","St1","CR","1234","Std","x","999"',
        '"TIMESTAMP","RECORD","AirTC_Avg","RH","Rain_mm_Tot","WS_ms_Avg"',
        '"TS","RN","Deg C","%","mm","meters/second"',
        '"","","Avg","Smp","Tot","Avg"',
      ],
      60,
      (m) => `"${iso(m)}:00",1,${m.t},${m.h},${m.rain},${m.wind}`,
    ),
    reads: [...THR, 'wind'],
  },
  {
    name: 'rows that end in empty cells, rain of the hour beside that since midnight',
    text: table(
      'Uhrzeit;Temp;Feuchte;Regen seit Mitternacht (mm);Regen 1h (mm)',
      60,
      (m) => `${dotted(m)} ${clock(m)};${comma(m.t)};${m.h};${comma(m.today)};${comma(m.rain)};;;`,
    ),
    reads: THR,
  },
  {
    name: 'a column in words that are not known, by what was said',
    text: table(
      '年月日時,気温(℃),降水量(mm),相対湿度(%),風速(m/s)',
      60,
      (m) => `${m.year}/6/${Number(m.day)} ${Number(m.hour)}:00,${m.t},${m.rain},${m.h},${m.wind}`,
    ),
    reads: [...THR, 'wind'],
    args: { how: { columns: { rain: '降水量(mm)', humidity: '相対湿度(%)', wind: '風速(m/s)' } } },
  },
]
