/** Random numbers in [0, 1). */
export type Random = () => number

/** Mean sugar of a block, °Brix, day by day from the day on which it stood at 5 Brix or so. */
export type Course = number[]

/**
 * A kind of course. Its block is drawn once, and gives a season after another: what differs from season to season is drawn
 * anew. Temperatures are the season's means of three days, °C.
 */
export interface Family {
  name: string
  /** Kept out while the model's constants were set. */
  keptOut: boolean
  block: (random: Random) => (random: Random, temperatures: readonly number[]) => Course
}

export const DAYS = 170
const START = 5

const among = (random: Random, low: number, high: number) => low + (high - low) * random()
/** A factor about 1 by which a season differs from its block. */
const about = (random: Random, share: number) => 1 + share * (random() + random() + random() - 1.5) * 2

/** Adds up daily rates. */
function grown(rate: (day: number, level: number) => number): Course {
  const course = [START]
  for (let day = 0; day < DAYS - 1; day++) course.push(course[day]! + rate(day, course[day]!))
  return course
}

const onDays = (level: (day: number) => number): Course =>
  Array.from({ length: DAYS }, (_, day) => level(day))

/** The plain course that the disturbed families start from: slowing by a rate that falls with the level. */
function plain(random: Random) {
  const [at18, slowing] = [among(random, 0.14, 0.32), among(random, 0, 0.025)]
  return (again: Random) => {
    const rate = at18 * about(again, 0.1)
    return (_: number, level: number) => Math.max(0.01, rate + slowing * (18 - level))
  }
}

export const FAMILIES: readonly Family[] = [
  {
    name: 'straight',
    keptOut: false,
    block: (random) => {
      const rate = among(random, 0.13, 0.33)
      return (again) => {
        const own = rate * about(again, 0.1)
        return grown(() => own)
      }
    },
  },
  {
    name: 'slowing',
    keptOut: false,
    block: (random) => {
      const [first, half] = [among(random, 0.28, 0.5), among(random, 22, 50)]
      return (again) => {
        const [own, pace] = [first * about(again, 0.1), Math.LN2 / (half * about(again, 0.1))]
        return grown((day) => own * Math.exp(-pace * day))
      }
    },
  },
  {
    name: 'sigmoid',
    keptOut: false,
    block: (random) => {
      const [bottom, top, scale] = [among(random, 2.5, 4.5), among(random, 20.5, 25.5), among(random, 8, 14)]
      return (again) => {
        const [ownTop, ownScale] = [top * about(again, 0.02), scale * about(again, 0.1)]
        const shift = ownScale * Math.log((ownTop - START) / (START - bottom))
        return onDays((day) => bottom + (ownTop - bottom) / (1 + Math.exp(-(day - shift) / ownScale)))
      }
    },
  },
  {
    name: 'gompertz',
    keptOut: true,
    block: (random) => {
      const [top, pace] = [among(random, 20.5, 26), among(random, 0.04, 0.085)]
      return (again) => {
        const [ownTop, own] = [top * about(again, 0.02), pace * about(again, 0.1)]
        const shift = Math.log(Math.log(ownTop / START)) / own
        return onDays((day) => ownTop * Math.exp(-Math.exp(-own * (day - shift))))
      }
    },
  },
  {
    name: 'towards a ceiling',
    keptOut: true,
    block: (random) => {
      const [top, pace] = [among(random, 21, 28), among(random, 0.02, 0.045)]
      return (again) => {
        const [ownTop, own] = [top * about(again, 0.02), pace * about(again, 0.1)]
        return onDays((day) => ownTop - (ownTop - START) * Math.exp(-own * day))
      }
    },
  },
  {
    name: 'broken',
    keptOut: true,
    block: (random) => {
      const [first, share] = [among(random, 0.22, 0.42), among(random, 0.35, 0.85)]
      return (again) => {
        const [own, from] = [first * about(again, 0.1), among(again, 12, 19)]
        return grown((_, level) => (level < from ? own : own * share))
      }
    },
  },
  {
    name: 'standstill',
    keptOut: false,
    block: (random) => {
      const course = plain(random)
      return (again) => {
        const rate = course(again)
        const [from, stood] = [among(again, 20, 65), among(again, 5, 11)]
        return grown((day, level) => (day >= from && day < from + stood ? 0 : rate(day, level)))
      }
    },
  },
  {
    name: 'rain',
    keptOut: false,
    block: (random) => {
      const course = plain(random)
      return (again) => {
        const rate = course(again)
        const rains = Array.from({ length: 1 + Math.floor(again() * 3) }, () => ({
          day: Math.floor(among(again, 15, 80)),
          brix: among(again, 0.5, 1.5),
        }))
        return grown((day, level) => {
          const change = rains.reduce((sum, rain) => {
            if (rain.day === day) return sum - rain.brix
            return day > rain.day && day <= rain.day + 8 ? sum + (0.5 * rain.brix) / 8 : sum
          }, 0)
          return rate(day, level) + change
        })
      }
    },
  },
  {
    name: 'waves',
    keptOut: false,
    block: (random) => {
      const course = plain(random)
      return (again) => {
        const rate = course(again)
        const [height, length, turn] = [
          among(again, 0.4, 0.9),
          among(again, 10, 24),
          among(again, 0, 2 * Math.PI),
        ]
        return grown(
          (day, level) => rate(day, level) * (1 + height * Math.sin((2 * Math.PI * day) / length + turn)),
        )
      }
    },
  },
  {
    name: 'weather',
    keptOut: false,
    block: (random) => {
      const course = plain(random)
      const warmth = among(random, 0.02, 0.09)
      return (again, temperatures) => {
        const rate = course(again)
        return grown(
          (day, level) =>
            rate(day, level) * Math.min(1.9, Math.max(0.2, 1 + warmth * (temperatures[day]! - 16))),
        )
      }
    },
  },
  {
    name: 'quickening',
    keptOut: true,
    block: (random) => {
      const [first, gain] = [among(random, 0.14, 0.24), among(random, 0.002, 0.01)]
      return (again) => {
        const own = first * about(again, 0.1)
        return grown((day) => own * (1 + gain * Math.min(60, day)))
      }
    },
  },
  {
    name: 'wandering',
    keptOut: true,
    block: (random) => {
      const course = plain(random)
      return (again) => {
        const rate = course(again)
        let off = 0
        return grown((day, level) => {
          off = 0.9 * off + 0.3 * (again() + again() + again() - 1.5) * 2 * Math.sqrt(1 - 0.81)
          return rate(day, level) * Math.exp(off - 0.05)
        })
      }
    },
  },
]
