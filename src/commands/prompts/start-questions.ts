import { readQuantity } from '../../records/quantity.ts'
import { dayOrderOf } from '../../records/said-date.ts'
import type { Style } from '../../render/style.ts'
import { inSiteUnits } from './as-typed.ts'
import { numbered, readChosen } from './choices.ts'
import type { Part, Question } from './question.ts'
import { idOf } from './record-id.ts'

type Read = { parts: Part[]; fault?: undefined } | { parts?: undefined; fault: string }
type Units = Style['units']

const UNITS: readonly { id: Units; name: string }[] = [
  { id: 'metric', name: 'metric: ha, kg, L, °C' },
  { id: 'us', name: 'us: acre, lb, US gal, °F' },
  { id: 'imperial', name: 'imperial: acre, lb, imp gal, °C' },
]

interface About {
  /** What the folder is called. */
  folder: string
  /** The machine's time zone. */
  timezone: string
  /** Options that were typed. */
  typed: ReadonlySet<string>
  /** The units chosen so far. */
  units: Units
}

/** The five questions of `start`; what was typed as an option isn't asked. */
export function startQuestions({ folder, timezone, typed, units }: About): Question[] {
  const questions: Question[] = [
    {
      key: 'name',
      ask: 'What is your vineyard called?',
      why: 'Reports and pages are headed by it.',
      required: true,
      preset: folder,
      read: (text) => ({ parts: [{ option: 'name', text }] }),
    },
    {
      key: 'latitude',
      ask: 'Where is it? Latitude and longitude, for example 52.1, 5.6.',
      why: 'Seasons and day length follow from it. On a map on your phone, press and hold on your rows to see both numbers. The latitude alone will do.',
      required: true,
      preset: '',
      read: readWhere,
    },
    {
      key: 'units',
      ask: 'Which units should reports print?',
      why: 'You may type any units, whichever you choose here.',
      choices: numbered(UNITS),
      required: true,
      preset: dayOrderOf(timezone) === 'month-first' ? 'us' : 'metric',
      read: (text) => {
        const { chosen, fault } = readChosen(text, UNITS, { several: false })
        return fault === undefined ? { parts: [{ option: 'units', text: chosen[0]!.id }] } : { fault }
      },
    },
    {
      key: 'block',
      ask: 'What is your first block called? For example Top Terrace. Its size comes after these questions.',
      why: 'A block is a piece of vineyard of one variety. You can add it later by `rowbook note block`.',
      required: false,
      preset: '',
      read: (text) =>
        idOf(text) === null
          ? { fault: 'Type a name with letters, like the one that you use.' }
          : { parts: [{ option: 'block', text }] },
    },
    {
      key: 'sprayer',
      ask: `Which sprayer do you have, and how much does its tank hold? For example knapsack ${units === 'us' ? '4 gal' : '15 L'}.`,
      why: 'Tanks are filled by its volume. You can add it later by `rowbook note sprayer`.',
      required: false,
      preset: '',
      read: (text) => readSprayer(text, units),
    },
  ]
  return questions.filter(({ key }) => !typed.has(key))
}

const WHERE_HELP =
  'Type the latitude and the longitude in degrees, like 52.1, 5.6; south and west are negative.'

/** Reads `52.1, 5.6`, `41.5 S 174 E`, `52°06'N 5°36'E` as latitude and longitude in degrees; the longitude may be missing. */
export function readWhere(text: string): Read {
  if (/^\s*-?\d+,\d+\s*$/.test(text))
    return { fault: `Type a point for decimals, like ${text.trim().replace(',', '.')}.` }
  const angle = String.raw`([+-]?\d+(?:\.\d+)?)\s*\u00b0?\s*(?:(\d+(?:\.\d+)?)\s*['\u2019\u2032]\s*(?:(\d+(?:\.\d+)?)\s*["\u201d\u2033]\s*)?)?`
  const both = new RegExp(`^${angle}([NS])?(?:[\\s,;]+${angle}([EW])?)?$`, 'i').exec(text.trim())
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

/** Reads `knapsack 15 L`, `15 L` or `Solo, 4 gal` as name and tank of a sprayer. */
export function readSprayer(text: string, units: Units): Read {
  const help = `Type its name and its tank, like knapsack ${units === 'us' ? '4 gal' : '15 L'}.`
  const cut = /^(.*?)[\s,]*(\d+(?:\.\d+)?)\s*([a-z][a-z .]*)?$/i.exec(text.trim())
  if (!cut) return { fault: help }
  const unit = cut[3] ?? (units === 'us' ? 'US gal' : 'L')
  const tank = `${cut[2]} ${inSiteUnits(unit.replace(/^lit(?:er|re)s?$/i, 'L'), units)}`
  if (readQuantity(tank, ['L']).fault || Number(cut[2]) === 0) return { fault: help }
  const name = cut[1]!.trim() || 'Sprayer'
  if (idOf(name) === null) return { fault: help }
  return {
    parts: [
      { option: 'sprayer', text: name },
      { option: 'tank', text: tank },
    ],
  }
}
