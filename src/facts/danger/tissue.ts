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
  const none = (why: string): Tissue => ({ part: null, critical: 'out', why, unknown: null })
  if (!growth.shootsOn(day)) return none('shoots shorter than 10 cm')
  const stage = growth.stageOn(day)
  const until = LEAVES_UNTIL[disease] ?? 81
  const critical = periodOf(disease, growth, day)
  const ripe = stage !== null && stage.stage >= until
  const past = ripe || (growth.veraisonOn(day) === 'after' && critical.state === 'out')
  if (past && critical.state !== 'in')
    return spotted
      ? { part: 'leaf', critical: 'out', why: SPOTS_LATE, unknown: null }
      : none('past the stages that need protection')
  if (critical.state === 'out')
    return { part: 'leaf', critical: 'out', why: critical.why, unknown: critical.unknown }
  return {
    part: 'both',
    critical: critical.state,
    get why() {
      return critical.why
    },
    unknown: critical.unknown,
  }
}

interface Period {
  state: Tissue['critical']
  why: string
  unknown: string | null
}

/** Whether a day lies in the critical period of fruit. */
function periodOf(disease: Disease, growth: Growth, day: number): Period {
  const period = CRITICAL[disease]
  if (!period) return { state: 'out', why: 'infects leaves and shoots only', unknown: null }
  const blooms = growth.bloomsOn(day)
  const { before, after } = period
  const stage = growth.stageOn(day)
  const blooming = stage !== null && stage.stage >= 57 && stage.stage <= 69 && day - stage.day <= 14
  const sure = blooms.find((one) => !one.guess && day >= one.latest - before && day <= one.earliest + after)
  if (blooming || sure) {
    const by = sure ?? blooms[0]!
    return {
      state: 'in',
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
    return { state: 'may be', why, unknown: `growth stage${open.guess ? ': none noted' : ''}` }
  }
  const ahead = blooms.every(({ earliest }) => day < earliest)
  return {
    state: 'out',
    why: ahead ? 'only leaves so far: before bloom' : 'leaves only: fruit can no longer be infected',
    unknown: null,
  }
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
  if (!timed)
    return { part: null, critical: 'out', why: 'between the times that matter for botrytis', unknown: null }
  const { sure, name } = timed
  const unknown = sure ? null : 'growth stage'
  return {
    part: 'fruit',
    critical: sure ? 'in' : 'may be',
    why: `vines ${sure ? 'are' : 'may be'} ${name}`,
    unknown,
  }
}
