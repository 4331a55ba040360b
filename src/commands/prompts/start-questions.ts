import { readQuantity } from '../../records/quantity.ts'
import { inSiteUnits } from '../../records/typed/site-way.ts'
import { dayOrderOf } from '../../records/typed/typed-date.ts'
import type { Style } from '../../render/style.ts'
import { choosing } from './choices.ts'
import type { Question, Read } from './question.ts'
import { idOf, NO_NAME } from './record-questions.ts'

type Units = Style['units']

const UNITS: readonly { id: Units; name: string }[] = [
  { id: 'metric', name: 'metric: ha, kg, L, °C' },
  { id: 'us', name: 'us: acre, lb, US gal, °F' },
  { id: 'imperial', name: 'imperial: acre, lb, imp gal, °F' },
]

interface About {
  /** The name of the folder. */
  folder: string
  /** The machine's time zone. */
  timezone: string
  /** Options that were typed. */
  typed: ReadonlySet<string>
  /** The units chosen so far. */
  units: Units
}

/** The five questions of `start`, without those that an option answers. */
export function startQuestions({ folder, timezone, typed, units }: About): Question[] {
  const questions: Question[] = [
    {
      key: 'name',
      ask: 'What is your vineyard called?',
      why: 'Reports and pages are headed by it.',
      preset: folder,
      read: (text) => ({ parts: [{ option: 'name', text }] }),
    },
    {
      key: 'latitude',
      ask: 'Where is it? Latitude and longitude, for example 52.1, 5.6.',
      why: 'Seasons and day length follow from it. On a map on your phone, press and hold on your rows to see both numbers. The latitude alone will do.',
      read: readWhere,
    },
    {
      key: 'units',
      ask: 'Which units should reports print?',
      why: 'You may type any units, whichever you choose here.',
      ...choosing('units', UNITS),
      preset: dayOrderOf(timezone) === 'month-first' ? 'us' : 'metric',
    },
    {
      key: 'block',
      ask: 'What is your first block called? For example Top Terrace. Its size comes after these questions.',
      why: 'A block is a piece of vineyard of one variety. You can add it later by `rowbook note block`.',
      optional: true,
      read: (text) => (idOf(text) === null ? { fault: NO_NAME } : { parts: [{ option: 'block', text }] }),
    },
    {
      key: 'sprayer',
      ask: `Which sprayer do you have, and how much does its tank hold? For example knapsack ${TANKS[units]}.`,
      why: 'Tanks are filled by its volume. You can add it later by `rowbook note sprayer`.',
      optional: true,
      read: (text) => readSprayer(text, units),
    },
  ]
  return questions.filter(({ key }) => !typed.has(key))
}

const WHERE_HELP =
  'Type the latitude and the longitude in degrees, like 52.1, 5.6; south and west are negative.'

const ANGLE = String.raw`([+-]?\d{1,9}(?:\.\d{1,15})?)\s{0,9}\u00b0?\s{0,9}(?:(\d{1,9}(?:\.\d{1,15})?)\s{0,9}['\u2019\u2032]\s{0,9}(?:(\d{1,9}(?:\.\d{1,15})?)\s{0,9}["\u201d\u2033]\s{0,9})?)?`
const PLACE = new RegExp(`^${ANGLE}([NS])?(?:[\\s,;]{1,9}${ANGLE}([EW])?)?$`, 'i')

/** Moves compass letters behind the number and shortens `south` to `S`: `N 52° 6', E 5.6`, `41.5 south`. */
const asOnMaps = (text: string): string =>
  text
    .trim()
    .replace(/\u00ba/g, '\u00b0')
    .replace(/\s{0,9}(['\u2019\u2032]){2}/g, '"')
    .replace(/(?<=^|[^a-z])([nsew])(?:orth|outh|ast|est)(?![a-z])/gi, '$1')
    .replace(/^([NS])\s{0,9}([^a-z,;]{1,40})/i, '$2$1 ')
    .replace(/([EW])\s{0,9}(\d[^a-z,;]{0,40})$/i, '$2$1')
    .trim()
    .replace(/\s{1,9}(?=[nsew](?![a-z]))/gi, '')

/** Reads `52.1, 5.6`, `41.5 S 174 E`, `52°06'N 5°36'E` as latitude and longitude in degrees; the longitude may be missing. */
function readWhere(text: string): Read {
  const both = PLACE.exec(asOnMaps(text))
  const comma = /^\s{0,9}-?\d{1,3},\d{1,9}(?=[^\d.]|$)/.exec(text)
  if (comma && (!both || comma[0] === text.trimEnd()))
    return { fault: `Type a point for decimals, like ${comma[0].trim().replace(',', '.')}.` }
  if (!both) return { fault: WHERE_HELP }
  const degrees = (at: number, negative: RegExp) => {
    const whole = Number(both[at])
    const part = Number(both[at + 1] ?? 0) / 60 + Number(both[at + 2] ?? 0) / 3600
    const size = Math.abs(whole) + part
    return Number(
      ((both[at]!.startsWith('-') || negative.test(both[at + 3] ?? '') ? -1 : 1) * size).toFixed(5),
    )
  }
  const latitude = degrees(1, /s/i)
  if (Math.abs(latitude) > 90) return { fault: `No place has latitude ${latitude}. ${WHERE_HELP}` }
  const parts = [{ option: 'latitude', text: String(latitude) }]
  if (both[5] === undefined) return { parts }
  const longitude = degrees(5, /w/i)
  if (Math.abs(longitude) > 180) return { fault: `No place has longitude ${longitude}. ${WHERE_HELP}` }
  return { parts: [...parts, { option: 'longitude', text: String(longitude) }] }
}

/** The tank of a knapsack, as in the example of the question. */
const TANKS = { metric: '15 L', us: '4 gal', imperial: '3 gal' }

/** Reads `knapsack 15 L`, `15 L` or `Solo, 4 gal` as name and tank of a sprayer. */
function readSprayer(text: string, units: Units): Read {
  const help = `Type its name and its tank, like knapsack ${TANKS[units]}.`
  const cut = /(?<![\d.])(\d{1,15}(?:\.\d{1,15})?)\s{0,9}([a-z][a-z .]{0,30})?$/i.exec(text.trim())
  if (!cut) return { fault: help }
  const unit = cut[2] ?? (units === 'metric' ? 'L' : 'gal')
  const tank = `${cut[1]} ${inSiteUnits(unit.replace(/^lit(?:er|re)s?$/i, 'L'), units)}`
  if (readQuantity(tank, ['L']).fault || Number(cut[1]) === 0) return { fault: help }
  const name =
    text
      .trim()
      .slice(0, cut.index)
      .replace(/[\s,]{1,9}$/, '') || 'Sprayer'
  if (idOf(name) === null) return { fault: help }
  return {
    parts: [
      { option: 'sprayer', text: name },
      { option: 'tank', text: tank },
    ],
  }
}
