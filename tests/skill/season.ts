import { dayOf } from '../../src/records/date.ts'
import { gaussian } from '../agronomy/seeded.ts'
import { DAYS, type Family, type Random } from './families.ts'

export interface SimulatedSample {
  day: number
  /** Readings, °Brix, of as many bags. */
  brix: number[]
  berries: number
}

export interface SimulatedSeason {
  /** Day number of its first day. */
  start: number
  samples: SimulatedSample[]
  /** Day on which half of the berries had coloured, as noted. */
  veraison: number
  /** Day of full bloom, as noted; before the first day of the course. */
  flowering: number
  /** Daily means, °C. */
  temperatures: number[]
  /** True mean, °Brix. */
  course: number[]
}

export interface SimulatedBlock {
  target: number
  /** Degrees, north positive. */
  latitude: number
  season: SimulatedSeason
  past: SimulatedSeason[]
  /** First day on which the true mean of `season` is at the target. */
  truth: number
}

export const among = (random: Random, low: number, high: number) => low + (high - low) * random()

/** °Brix above the target at which a block is picked at the latest, and sampled no more. */
const PICKED = 1.5

/** How a block is sampled. */
interface Habit {
  every: number
  berries: number
  between: number
  within: number
  bags: number
}

/** A block of a family with so many past seasons, whose last season reaches its target. */
export function drawBlock(family: Family, random: Random, past: number): SimulatedBlock {
  for (;;) {
    const course = family.block(random)
    const habit = drawHabit(random)
    const site = among(random, -2, 2)
    const target = Math.round(2 * among(random, 17, 22)) / 2
    const place = drawPlace(random)
    const seasons = Array.from({ length: past + 1 }, (_, at) =>
      drawSeason(course, { habit, site, target, random, bloom: bloomIn(2026 - past + at, place, random) }),
    )
    const season = seasons.at(-1)!
    const truth = season.course.findIndex((brix) => brix >= target)
    const last = truth - season.veraison
    if (truth > 0 && last >= 30 && last <= 85)
      return { target, latitude: place.latitude, season, past: seasons.slice(0, -1), truth }
  }
}

/** Where a block is, and how many days after the middle of its district's bloom it blooms in the mean. */
interface Place {
  latitude: number
  later: number
}

const drawPlace = (random: Random): Place => ({
  latitude: (random() < 0.7 ? 1 : -1) * among(random, 42, 53),
  later: 5 * gaussian(random),
})

/**
 * Full bloom of a season, as a day number: about 18 June beyond 47°, 8 June nearer, half a year later in the south, and 7 days
 * (standard deviation) earlier or later from year to year. Invented.
 */
function bloomIn(season: number, { latitude, later }: Place, random: Random): number {
  const inNorth = dayOf(`${latitude < 0 ? season - 1 : season}-06-${Math.abs(latitude) >= 47 ? '18' : '08'}`)
  return Math.round(inNorth + (latitude < 0 ? 183 : 0) + later + 7 * gaussian(random))
}

function drawHabit(random: Random): Habit {
  const between = random() < 0.25 ? among(random, 0.45, 0.65) : among(random, 0.15, 0.45)
  return {
    every: 5 + Math.floor(6 * random()),
    berries: Math.round(20 * 10 ** random()),
    between,
    within: among(random, 1.4, 2.1),
    bags: random() < 0.75 ? 1 : 3 + Math.floor(random() * 3),
  }
}

function drawSeason(
  courseOf: ReturnType<Family['block']>,
  of: { habit: Habit; site: number; target: number; random: Random; bloom: number },
): SimulatedSeason {
  const { habit, site, target, random, bloom } = of
  const temperatures = drawWeather(site, random)
  const threes = temperatures.map((_, day) => {
    const days = temperatures.slice(Math.max(0, day - 2), day + 1)
    return days.reduce((sum, one) => sum + one, 0) / days.length
  })
  const course = courseOf(random, threes)
  const coloured = 8.5 + 1.2 * gaussian(random)
  const veraison =
    Math.max(
      0,
      course.findIndex((brix) => brix >= coloured),
    ) + Math.round(2 * gaussian(random))
  const shared = 0.15 * gaussian(random)
  const samples: SimulatedSample[] = []
  for (let day = Math.max(0, veraison - 3 + Math.floor(12 * random())); day < DAYS; ) {
    if (course[day]! > target + PICKED) break
    const off = shared + habit.between * gaussian(random)
    const bag = habit.within / Math.sqrt(habit.berries / habit.bags)
    const brix = Array.from(
      { length: habit.bags },
      () => Math.round(10 * Math.max(1, course[day]! + off + bag * gaussian(random))) / 10,
    )
    samples.push({ day, brix, berries: habit.berries })
    day += habit.every + Math.floor(3 * random()) - 1
  }
  const flowering = veraison - Math.round(among(random, 45, 75))
  return { start: bloom - flowering, samples, veraison, flowering, temperatures, course }
}

/** From 20 °C falling by a tenth a day, with spells of warm and cold. */
function drawWeather(site: number, random: Random): number[] {
  const year = site + 0.8 * gaussian(random)
  let spell = 0
  return Array.from({ length: DAYS }, (_, day) => {
    spell = 0.75 * spell + 2 * gaussian(random)
    return 20.5 - 0.1 * day + year + spell
  })
}
