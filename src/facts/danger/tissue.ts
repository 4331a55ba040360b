import { isoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import { shortDate } from '../../records/spoken-date.ts'
import type { Growth } from './growth.ts'

/** Which parts of the vine a disease can infect on a day. */
export interface Tissue {
  /** Null where it can infect nothing. */
  part: 'fruit' | 'leaf' | 'both' | null
  /** Whether the day lies in the critical period of the fruit; `may be` where the stage leaves it open. */
  critical: 'in' | 'may be' | 'out'
  why: string
  /** What a note of the stage would settle; null where nothing. */
  unknown: string | null
}

/**
 * Days before and after full bloom in which fruit is most at risk.
 * Powdery: from just before bloom to four weeks after (Michigan State University in Western Farm Press, read; Gadoury
 * et al. 2003, Phytopathology 93:547-555, from memory). Downy: berries two weeks, their stalks four (Kennelly et al.
 * 2005, Phytopathology 95:1445-1452, abstract read). Black rot: six weeks on vinifera (Disease Notes for the
 * Mid-Atlantic, read). Ten days as `just before`: common practice, no source.
 */
const CRITICAL: Readonly<Partial<Record<Disease, { before: number; after: number }>>> = {
  powdery: { before: 10, after: 28 },
  downy: { before: 10, after: 28 },
  'black-rot': { before: 10, after: 42 },
}

/**
 * Stages from which leaves no longer need protection: veraison for powdery and black rot, softening for downy. Common
 * practice, no source.
 */
const LEAVES_UNTIL: Readonly<Partial<Record<Disease, number>>> = {
  powdery: 81,
  downy: 85,
  'black-rot': 81,
  phomopsis: 71,
}

/** Why leaves count where oil spots are on them after veraison. */
export const SPOTS_LATE = 'berries can no longer be infected, leaves and bunch stems can'

/** Days before the earliest bloom from which fruit may be at risk where the stage leaves it open. Our own choice. */
const MAY_BE_BEFORE = 3

/** Whether a stage well before bloom was noted within a week: then bloom isn't near, whatever the calendar says. */
const isEarly = (growth: Growth, day: number): boolean => {
  const stage = growth.stageOn(day)
  return stage !== null && stage.stage < 55 && day - stage.day <= 7
}

/**
 * What a disease can infect in a block on a day. Where oil spots are on the leaves, downy mildew goes on there when
 * protection usually ends: berries are past infection, leaves, stems and berry stalks are not (AWRI eBulletin, 28
 * November 2024, read).
 */
export function tissueOn(
  disease: Disease,
  growth: Growth,
  { day, spotted }: { day: number; spotted: boolean },
): Tissue {
  if (disease === 'botrytis') return botrytisTissue(growth, day)
  if (!growth.shootsOn(day)) return nothing('shoots shorter than 10 cm')
  const stage = growth.stageOn(day)
  const fruit = fruitOn(disease, growth, day)
  const isRipe = stage !== null && stage.stage >= (LEAVES_UNTIL[disease] ?? 81)
  const isPast = isRipe || (growth.veraisonOn(day) === 'after' && fruit.critical === 'out')
  if (!isPast || fruit.critical === 'in') return fruit
  return spotted
    ? { part: 'leaf', critical: 'out', why: SPOTS_LATE, unknown: null }
    : nothing('past the stages that need protection')
}

const nothing = (why: string): Tissue => ({ part: null, critical: 'out', why, unknown: null })

/** Whether fruit is in its critical period on a day, or leaves alone are open. */
function fruitOn(disease: Disease, growth: Growth, day: number): Tissue {
  const leaves = (why: string): Tissue => ({ part: 'leaf', critical: 'out', why, unknown: null })
  const period = CRITICAL[disease]
  if (!period) return leaves('infects leaves and shoots only')
  const blooms = growth.bloomsOn(day)
  const { before, after } = period
  const stage = growth.stageOn(day)
  const blooming = stage !== null && stage.stage >= 57 && stage.stage <= 69 && day - stage.day <= 14
  const sure = blooms.find((one) => !one.guess && day >= one.latest - before && day <= one.earliest + after)
  if (blooming || sure) {
    const by = sure ?? blooms[0]!
    return {
      part: 'both',
      critical: 'in',
      // Worded only when read: few days of a season are printed.
      get why() {
        const end = shortDate(isoDate(Math.max(by.earliest, by.latest) + after))
        return `fruit at greatest risk until about ${end} (${by.why})`
      },
      unknown: null,
    }
  }
  const open = blooms.find((one) => day >= one.earliest - MAY_BE_BEFORE && day <= one.latest + after)
  if (open && !isEarly(growth, day)) {
    const why = `fruit may be at greatest risk (${open.why})`
    return {
      part: 'both',
      critical: 'may be',
      why,
      unknown: `growth stage${open.guess ? ': none noted' : ''}`,
    }
  }
  return leaves(
    blooms.every(({ earliest }) => day < earliest)
      ? 'only leaves so far: before bloom'
      : 'leaves only: fruit can no longer be infected',
  )
}

/**
 * Botrytis is timed: bloom, bunch closure, veraison, and before harvest in wet weather (University of Maryland
 * Extension 2023 and Maryland Grape Growers, read). Days around each: common practice, no source.
 */
function botrytisTissue(growth: Growth, day: number): Tissue {
  const found = growth
    .timesOn(day)
    .filter(({ from, to, blooms }) => day >= from && day <= to && !(blooms && isEarly(growth, day)))
  const timed = found.find(({ sure }) => sure) ?? found[0]
  if (!timed) return nothing('between the times that matter for botrytis')
  const { sure, name } = timed
  return sure
    ? { part: 'fruit', critical: 'in', why: `vines are ${name}`, unknown: null }
    : { part: 'fruit', critical: 'may be', why: `vines may be ${name}`, unknown: 'growth stage' }
}
