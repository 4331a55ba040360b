import { NO_WARMTH } from '../../src/agronomy/ripening/warmth.ts'
import { readSample } from '../../src/facts/ripeness/sample.ts'
import type { BlockSample } from '../../src/facts/ripeness/samples.ts'
import { acidWindow } from '../../src/facts/window/acid-window.ts'
import type { Ledger, Named, SampleEntry } from '../../src/ledger/read/ledger.ts'
import { dayOf, type IsoDate, isoDate } from '../../src/records/date.ts'
import type { Block } from '../../src/records/kinds/block.ts'
import { gaussian, seeded } from '../agronomy/seeded.ts'
import type { Random } from './families.ts'
import { type Answer, type Scored, scoreOf } from './score.ts'
import { among } from './season.ts'

/** A kind of course of titratable acidity, g/L as tartaric, or of pH, by days from veraison. Ranges are invented. */
interface AcidFamily {
  name: string
  of: 'ta' | 'ph'
  keptOut: boolean
  draw: (random: Random) => (day: number) => number
}

const DAYS = 110

export const ACID_FAMILIES: readonly AcidFamily[] = [
  {
    name: 'acid, falling to a floor',
    of: 'ta',
    keptOut: false,
    draw: (random) => {
      const [first, floor, pace] = [among(random, 20, 34), among(random, 3, 6), among(random, 0.025, 0.06)]
      return (day) => floor + (first - floor) * Math.exp(-pace * day)
    },
  },
  {
    name: 'acid, halving ever later',
    of: 'ta',
    keptOut: true,
    draw: (random) => {
      const [first, half] = [among(random, 20, 34), among(random, 14, 34)]
      return (day) => first / (1 + day / half)
    },
  },
  {
    name: 'acid, in waves',
    of: 'ta',
    keptOut: true,
    draw: (random) => {
      const [first, pace] = [among(random, 18, 30), among(random, 0.016, 0.032)]
      const [height, length, turn] = [among(random, 0, 0.7), among(random, 12, 24), among(random, 0, 6.28)]
      let level = first
      const course = Array.from({ length: DAYS }, (_, day) => {
        level *= 1 - pace * (1 + height * Math.sin((6.28 * day) / length + turn))
        return level
      })
      return (day) => course[day]!
    },
  },
  {
    name: 'pH, straight',
    of: 'ph',
    keptOut: false,
    draw: (random) => {
      const [first, pace] = [among(random, 2.6, 2.8), among(random, 0.006, 0.018)]
      return (day) => first + pace * day
    },
  },
  {
    name: 'pH, slowing',
    of: 'ph',
    keptOut: true,
    draw: (random) => {
      const [first, rise, pace] = [
        among(random, 2.6, 2.8),
        among(random, 0.6, 1.1),
        among(random, 0.012, 0.03),
      ]
      return (day) => first + rise * (1 - Math.exp(-pace * day))
    },
  },
]

/** How far off a day's sample is, beside the share or pH that all of a season share. */
const ERROR = { ta: { shared: 0.02, day: [0.02, 0.07] }, ph: { shared: 0.02, day: [0.02, 0.06] } } as const

/** Windows of acid or pH asked so many days before the day on which the true course comes into its range. */
export function simulateAcid(
  family: AcidFamily,
  { seasons, lead, seed }: { seasons: number; lead: number; seed: number },
): Scored[] {
  const random = seeded(1000 * seed + ACID_FAMILIES.indexOf(family))
  const scored: Scored[] = []
  while (scored.length < seasons) {
    const level = family.draw(random)
    const target =
      family.of === 'ta' ? Math.round(among(random, 7, 10)) : Math.round(among(random, 29, 33)) / 10
    const isIn = (day: number) => (family.of === 'ta' ? level(day) <= target : level(day) >= target)
    const truth = Array.from({ length: DAYS }, (_, day) => day).find(isIn)
    if (truth === undefined || truth < 35 || truth > 85) continue
    const asOf = truth - lead
    const samples = drawSamples({ family, level, random }).filter(({ entry }) => dayOf(entry.date) <= asOf)
    scored.push(scoreOf(ask(family.of, { samples, target, today: asOf }), { truth, asOf }))
  }
  return scored
}

interface Drawn {
  family: AcidFamily
  level: (day: number) => number
  random: Random
}

function drawSamples({ family: { of }, level, random }: Drawn): BlockSample[] {
  const { shared, day: apart } = ERROR[of]
  const all = shared * gaussian(random)
  const each = among(random, apart[0], apart[1])
  const every = 5 + Math.floor(5 * random())
  const samples: BlockSample[] = []
  for (let day = Math.floor(8 * random()); day < DAYS; day += every) {
    const off = all + each * gaussian(random)
    const value = of === 'ta' ? level(day) * Math.exp(off) : level(day) + off
    const digits = of === 'ta' ? 10 : 100
    const read = [Math.round(digits * value) / digits]
    const entry = {
      date: isoDate(day),
      block: 'simulated',
      [of]: read,
      berries: 100,
      season: 1970,
    } as unknown as SampleEntry
    samples.push({ entry, facts: readSample(entry) })
  }
  return samples
}

function ask(of: 'ta' | 'ph', given: { samples: BlockSample[]; target: number; today: number }): Answer {
  const { samples, target, today } = given
  const unit = of === 'ta' ? 'g/L' : ''
  const range = of === 'ta' ? { low: 0, high: target, unit } : { low: target, high: 4, unit }
  const block = { id: 'simulated', variety: 'simulated', targets: { [of]: range } } as Named<Block>
  const ledger = { varieties: new Map() } as unknown as Ledger
  const window = acidWindow(ledger, block, { of, samples, warmth: NO_WARMTH, today })
  const day = (date: IsoDate | null | undefined) => (date ? dayOf(date) : null)
  return { earliest: day(window?.earliest), likely: day(window?.likely), latest: day(window?.latest) }
}
