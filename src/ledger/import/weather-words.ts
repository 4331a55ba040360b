import type { Measured } from '../weather/columns.ts'

/** What a heading says of its column. */
export interface HeadingWords {
  /** What it measures; null where it isn't understood, `unused` where rowbook has no use for it. */
  about: 'temperature' | 'humidity' | 'rain' | 'wetness' | 'wind' | 'unused' | null
  /** Which temperature of the row it is. */
  end: 'min' | 'max' | 'mean' | null
  unit: string | null
  outdoor: boolean
  /** How a count of rain runs: over a day or longer, over the last hour. */
  counts: 'day' | 'hour' | null
  /** Whether a time is in UTC. */
  utc: boolean
}

/** Words of headings in English, German, French, Dutch, Italian and Spanish, without accents. Common practice, no source. */
const ABOUT: readonly [NonNullable<HeadingWords['about']>, RegExp][] = [
  [
    'unused',
    /dew|taupunkt|rosee|dauwpunt|rugiada|rocio|wet ?bulb|feuchtkugel|soil|boden|bodem|suolo|suelo|indoor|inside|innen|interieur|binnen|interno|\bin (?:temp|hum)|(?:temp|hum)\w* in\b|heat|chill|thw|thsw|feels|apparent|gefuhlt|windrun|wind run|pressure|druck|\bdruk|barom|pression|presion|solar|radiation|strahlung|rayonnement|straling|\buv|batter|\bbatt|voltage|spannung|direction|richtung|\bdir\b|\bgust|gust\b|boe|rafale|vlaag|rate\b|intensit|\bet0?\b|evapo|vpd|cloud|sunshine|sonnenschein|\blux\b|rssi|signal|co2|density|snow|schnee|leaf temp|blatttemp|^station|station (?:name|id)|\bid\b|firmware/,
  ],
  ['wetness', /leaf ?wet|wetness|blattnass|blattfeucht|humectation|bladnat|bagnatura|mojado|nassedauer/],
  ['rain', /rain|precip|regen|niederschlag|pluie|neerslag|pioggia|lluvia|pluvio|\brr\b/],
  ['humidity', /humid|feucht|\brh\b|\brf\b|\brv\b|\bhr\b|\bur\b|vocht|umidita|humedad|\bhum\b|^hum/],
  ['wind', /wind|vent\b|vento|viento/],
  ['temperature', /temp|\bt\b|\bta\b|\btm\b|\btn\b|\btx\b|\bt(?:min|max|mean|avg)\b/],
]

const ENDS: readonly [NonNullable<HeadingWords['end']>, RegExp][] = [
  ['max', /max|high|\bhi\b|hochst|\btx\b/],
  ['min', /min(?!ut)|\blow|\blo\b|tiefst|\btn\b/],
  ['mean', /mean|avg|average|mittel|moyen|gemiddeld|media\b|\btm\b/],
]

const UNITS: readonly [string, RegExp][] = [
  ['F', /\u00b0\s*f\b|\u00ba\s*f\b|\bdeg(?:rees)?\s*f\b|fahrenheit|[([]\s*f\s*[)\]]|temp\w*[_ ]?f$|\bf$/],
  ['C', /\u00b0\s*c\b|\u00ba\s*c\b|\u2103|\bdeg(?:rees)?\s*c\b|celsius|[([]\s*c\s*[)\]]|temp\w*[_ ]?c$|\bc$/],
  ['%', /%|percent|prozent|\bpct\b/],
  ['km/h', /km\s*\/\s*h|\bkm\/?hr?\b|\bkph\b|kmh\b|km\s*h-1/],
  ['mph', /mph\b|\bmi\s*\/\s*h/],
  ['m/s', /m\s*\/\s*s(?:ec)?\b|\bms\b|m\s*s-1|meter pro sekunde|metres? per second/],
  ['kn', /\bkn\b|\bkts?\b|knots|knoten/],
  ['Bft', /\bbft\b|beaufort/],
  ['mm', /\bmm\b|mm$|l\s*\/\s*m(?:2|\u00b2)/],
  ['cm', /\bcm\b/],
  ['in', /["\u2033]|\binch(?:es)?\b|[([]\s*in\s*[)\]]|rain\w*[_ ]?in$|\bin$/],
  ['min', /\bmins?\b|minut/],
  ['h', /\bh\b|\bhrs?\b|hours|stunden/],
  ['s', /\bsec\b|[([]\s*s\s*[)\]]|seconds|sekunden/],
]

/** Units that may stand behind what a heading measures. */
const FITTING: Record<'temperature' | 'humidity' | 'rain' | 'wetness' | 'wind', readonly string[]> = {
  temperature: ['F', 'C'],
  humidity: ['%'],
  rain: ['mm', 'cm', 'in'],
  wetness: ['%', 'min', 'h', 's'],
  wind: ['km/h', 'mph', 'm/s', 'kn', 'Bft'],
}

const COUNTS_DAYS =
  /daily|today|\bday\b|heute|tages|jour|dag\b|event|month|monat|week|woche|year|jahr|cumul|kumul|accum|counter|zahler|compteur|\btotali[sz]/
const COUNTS_HOUR = /hourly|last hour|letzte stunde|\b1 ?h\b|60 ?min|stundlich|horaire/
const OUTDOOR = /outdoor|outside|\bout\b|aussen|exterieur|buiten|esterno|exterior|ambient/

/** Reads the words of a heading. */
export function headingWords(name: string): HeadingWords {
  const plain = name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/\u00df/g, 'ss')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
  const words = plain.replace(/[^a-z0-9%\u00b0]+/g, ' ').trim()
  const about = ABOUT.find(([, pattern]) => pattern.test(words))?.[0] ?? null
  const end = ENDS.find(([, pattern]) => pattern.test(words))?.[0] ?? null
  const fitting: readonly string[] = about === null || about === 'unused' ? [] : FITTING[about]
  const unit = UNITS.find(([unit, pattern]) => fitting.includes(unit) && pattern.test(plain))?.[0] ?? null
  const counts = COUNTS_HOUR.test(words) ? 'hour' : COUNTS_DAYS.test(words) ? 'day' : null
  // The highest wind of a row is its gust.
  const isGust = about === 'wind' && end === 'max'
  const outdoor = OUTDOOR.test(words)
  return { about: isGust ? 'unused' : about, end, unit, outdoor, counts, utc: /\butc\b|\bgmt\b/.test(words) }
}

/** The reading that a temperature of a file is, by the end of the day that it names; null where a row has no such one. */
export function temperatureKey(end: HeadingWords['end'], isDaily: boolean): Measured | null {
  if (isDaily) return end ?? 'temperature'
  return end === null || end === 'mean' ? 'temperature' : null
}
