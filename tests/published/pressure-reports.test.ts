import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe } from 'vitest'
import type { DownyPrimaryVariant } from '../../src/agronomy/disease/downy-primary-rules.ts'
import { Weather } from '../../src/facts/weather/hours.ts'
import { readWeatherFile } from '../../src/ledger/weather/weather.ts'
import { addDays } from '../../src/records/date.ts'
import { cover } from '../../src/reports/cover/report.ts'
import { pressureOfFile } from '../../src/reports/pressure/report.ts'
import { ledgerOf } from '../ledger/in-memory.ts'
import { type PublishedRow, published } from './rows.ts'

// Published rules of infection as `pressure` judges weather files by them, and of rain as `cover` does.

const folder = mkdtempSync(join(tmpdir(), 'rowbook-published-'))
let files = 0

type Hour = { warm?: number; humid?: number; rain?: number; wet?: boolean }

/** Hourly rows from 31 May 2026 on, numbered from the first hour of 1 June. */
const hourly = (days: number, hourOf: (at: number) => Hour) => {
  const rows = Array.from({ length: (days + 1) * 24 }, (_, at) => {
    const { warm = 15, humid = 60, rain = 0, wet = false } = hourOf(at - 24)
    const time = `${addDays('2026-05-31', Math.floor(at / 24))}T${String(at % 24).padStart(2, '0')}:00`
    return `${time},${warm},${humid},${rain},${wet ? 60 : 0}`
  })
  return ['time,temperature_c,humidity_pct,rain_mm,wetness_min', ...rows].join('\n')
}

function pressureOf(text: string, variant?: DownyPrimaryVariant) {
  const path = join(folder, `${files++}.csv`)
  writeFileSync(path, `${text}\n`)
  return pressureOfFile(new Weather(readWeatherFile(path)), { asOf: '2026-12-31', latitude: 51.5, variant })
    .data
}
const dayOf = (text: string, date: string, variant?: DownyPrimaryVariant) =>
  pressureOf(text, variant).days.find((day) => day.date === date)!

const from =
  (source: string, basis: PublishedRow['basis']) =>
  (...list: [id: string, got: PublishedRow['got'], want: PublishedRow['want']][]): PublishedRow[] =>
    list.map(([id, got, want]) => ({ id, source, basis, got, want }))

describe('downy, primary infection', () => {
  /** Rain over one day, and a temperature all the time, as hours and as days. */
  const byHours = (variant: DownyPrimaryVariant, rain: number, warm: number) =>
    dayOf(
      hourly(2, (at) => ({ warm, rain: at >= 0 && at < 24 ? rain / 24 : 0 })),
      '2026-06-01',
      variant,
    ).downy.primary
  const byDays = (variant: DownyPrimaryVariant, rain: number, warm: number) =>
    dayOf(
      `date,min_c,max_c,mean_c,rain_mm\n2026-05-31,${warm},${warm},${warm},0\n2026-06-01,${warm},${warm},${warm},${rain}`,
      '2026-06-01',
      variant,
    ).downy.primary
  const rules: [
    DownyPrimaryVariant,
    string,
    PublishedRow['basis'],
    [rain: number, warm: number, is: boolean][],
  ][] = [
    [
      'three-tens',
      'Baldacci 1947, Atti Ist. Bot. Lab. Crittogam. VIII:45-85, as cited by others: 10 mm in one or two days at a mean of 10 °C',
      'second-hand',
      [
        [10, 10, true],
        [9.9, 10, false],
        [10, 9.9, false],
      ],
    ],
    [
      'three-tens-minimum',
      'ADVID, figures on the page of a Portuguese collaborative laboratory, year not known: over 10 mm in 48 h, minimum 10 °C',
      'read',
      [
        [10, 10, false],
        [10.1, 10, true],
        [10.1, 9.9, false],
      ],
    ],
    [
      'mean-above-12',
      'notice of the government of Castilla-La Mancha, year not known: 10 L/m² in one or two days at a mean over 12 °C',
      'read',
      [
        [10, 12.1, true],
        [10, 12, false],
        [9.9, 12.1, false],
      ],
    ],
    [
      'little-rain',
      'Kennelly et al. 2007, Phytopathology 97:512-522, as cited by others: 2.5 mm in a day at a mean of 11 °C',
      'second-hand',
      [
        [2.5, 11, true],
        [2.4, 11, false],
        [2.5, 10.9, false],
      ],
    ],
  ]
  published(
    rules.flatMap(([variant, source, basis, list]) =>
      from(
        source,
        basis,
      )(
        ...list.flatMap(
          ([rain, warm, is]): Parameters<ReturnType<typeof from>> => [
            [`${rain} mm at ${warm} °C, hours`, () => byHours(variant, rain, warm), is],
            [`${rain} mm at ${warm} °C, days`, () => byDays(variant, rain, warm), is],
          ],
        ),
      ),
    ),
  )
})

describe('downy, secondary infection', () => {
  /** The night from 1 to 2 June: humid from 22 o'clock on, leaves wet from 3 o'clock on. */
  const night = (of: { dark?: number; wet?: number; humid?: number; warm?: number }) => {
    const { dark = 4, wet = 2, humid = 98, warm = 13 } = of
    const text = hourly(3, (at) => ({
      warm,
      humid: at >= 22 && at < 22 + dark ? humid : 60,
      wet: at >= 27 && at < 27 + wet,
    }))
    return dayOf(text, '2026-06-02').downy.secondary
  }
  published(
    from(
      'WineSkills, Plumpton, year not known: 98 % and 13 °C over 4 h of darkness, then leaves wet for 2 h near dawn',
      'read',
    )(
      ['all of it', () => night({}), true],
      ['97 %', () => night({ humid: 97 }), false],
      ['12.9 °C', () => night({ warm: 12.9 }), false],
      ['three hours of darkness', () => night({ dark: 3 }), false],
      ['wet for one hour', () => night({ wet: 1 }), false],
    ),
  )
})

describe('downy, winter spores', () => {
  /** Days from 1 January with a mean of 18 °C, which add 10 °C-days each over 8 °C. */
  const sporesAfter = (days: number) => {
    const rows = Array.from({ length: days }, (_, at) => `${addDays('2026-01-01', at)},18,18,18,0`)
    return pressureOf(['date,min_c,max_c,mean_c,rain_mm', ...rows].join('\n')).oospores
  }
  published(
    from(
      'French-Swiss advice text, year not known: ripe over 170 °C-days, base 8 °C, from 1 January',
      'read',
    )(
      ['sum of 17 days of 18 °C', () => sporesAfter(17).sum, 170],
      ['170 is not over it', () => sporesAfter(17).ripe, false],
      ['180 is', () => sporesAfter(18).ripe, true],
      ['day on which they are ripe', () => sporesAfter(30).ripeOn, '2026-01-18'],
    ),
  )
})

describe('powdery, ascospores', () => {
  const spell = (of: { rain?: number; hours?: number; warm?: number }) => {
    const { rain = 2.5, hours = 12, warm = 15 } = of
    const text = hourly(2, (at) => {
      const wet = at >= 6 && at < 6 + hours
      return { warm, wet, rain: at === 6 ? rain : 0 }
    })
    return dayOf(text, '2026-06-01').powdery.ascospores
  }
  published([
    ...from('Gadoury & Pearson 1990, release of ascospores, from memory', 'memory')(
      ['2.5 mm', () => spell({}), true],
      ['2.4 mm', () => spell({ rain: 2.4 }), false],
    ),
    ...from('AVF research summary and Maryland Grape Growers, year not known: 12 h of wetness', 'read')(
      ['12 h', () => spell({}), true],
      ['11 h', () => spell({ hours: 11 }), false],
    ),
    ...from('Nita 2012, Virginia Tech: wet at a mean of 50 to 80 °F', 'read')(
      ['50 °F', () => spell({ warm: 10 }), true],
      ['49.8 °F', () => spell({ warm: 9.9 }), false],
      ['79.9 °F', () => spell({ warm: 26.6 }), true],
      ['80.2 °F', () => spell({ warm: 26.8 }), false],
    ),
  ])
})

describe('botrytis', () => {
  const broken = (dry: number) =>
    dayOf(
      hourly(2, (at) => ({ warm: 18, wet: (at >= 0 && at < 5) || (at >= 5 + dry && at < 10 + dry) })),
      '2026-06-01',
    ).botrytis.wetHours
  const wetAt = (warm: number) =>
    dayOf(
      hourly(2, (at) => ({ warm, wet: at >= 0 && at < 20 })),
      '2026-06-01',
    ).botrytis
  published([
    ...from(
      'Broome et al. 1995, Phytopathology 85:97-102, as given by two public research codes: a dry time over 4 h ends a spell',
      'second-hand',
    )(['4 h dry between 5 and 5 h wet', () => broken(4), 10], ['5 h dry', () => broken(5), 5]),
    ...from('Broome et al. 1995, Phytopathology 85:97-102, range of 12 to 30 °C from memory', 'memory')(
      ['20 h wet at 12 °C have a risk', () => wetAt(12).risk !== null, true],
      ['20 h wet at 11.9 °C are unknown, not low', () => wetAt(11.9).risk, null],
      ['20 h wet at 30.1 °C are unknown, not low', () => wetAt(30.1).risk, null],
    ),
  ])
})

describe('cover', () => {
  /** What ends the protection of a contact product whose label names no rain. */
  const ended = (rain: number) => {
    const ledger = ledgerOf({
      'products/copper.yaml':
        'name: C\nform: WG\nkind: fungicide\nactives: [ { name: copper, content: 350 g/kg, group: M01 } ]\nuses:\n  - { against: downy, rate: 0.5-2 kg/ha, interval: 14 d }\n',
      'seasons/2026/sprays.yaml':
        '- date: 2026-06-01\n  time: 06:00-08:00\n  blocks: [upper]\n  water: 300 L/ha\n  products:\n    - { product: copper, rate: 1 kg/ha, for: downy }\n',
      'seasons/2026/weather.csv': hourly(12, (at) => ({ rain: at >= 60 && at < 70 ? rain / 10 : 0 })),
    })
    const blocks = [ledger.blocks.get('upper')!]
    const { data } = cover({ ledger, season: 2026, asOf: '2026-06-10', blocks }, { disease: 'downy' })
    return data.blocks[0]!.sprays[0]!.reason
  }
  published(
    from('La Vigne/Phytoma VI1532118402, year not known: 25 mm summed', 'read')(
      ['report, 25.0 mm of a contact product', () => ended(25), 'washed off'],
      ['report, 24.9 mm', () => ended(24.9), 'interval'],
    ),
  )
})
