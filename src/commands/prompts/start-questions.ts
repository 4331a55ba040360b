import { dayOrderOf } from '../../records/typed/typed-date.ts'
import type { Style } from '../../render/style.ts'
import { choosing } from './choices.ts'
import type { Question } from './question.ts'
import { idOf } from './record-questions.ts'
import { readSprayer, readWhere, TANKS } from './start-answers.ts'

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
      read: (text) =>
        idOf(text) === null
          ? { fault: 'Type a name with letters, like the one that you use.' }
          : { parts: [{ option: 'block', text }] },
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
