import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { winklerSeason } from '../../agronomy/heat/winkler.ts'
import { dayOf, type IsoDate } from '../../records/date.ts'
import { windowOf } from '../heat/window.ts'
import type { ReportInput } from '../report.ts'

/** From when on each model is asked, and by what that was decided. */
export interface Starts {
  /** Day numbers; null where nothing says. */
  budbreak: number | null
  shoots: number | null
  flowering: number | null
  why: { budbreak: string; shoots: string; flowering: string }
}

const GREEN_TIP = 7
const THREE_LEAVES = 13
const SHOOTS_CM = 10
const FLOWERING = 61

/** The starts by the growth stages seen on the blocks asked for, the earliest of them. */
export function startsOf({ ledger, season, asOf, blocks }: ReportInput): Starts {
  const ids = new Set(blocks.map(({ id }) => id))
  const seen = ledger.stages.filter(
    (entry) => entry.season === season && entry.date <= asOf && ids.has(entry.block) && entry.stage < 90,
  )
  const first = (holds: (entry: (typeof seen)[number]) => boolean) => seen.find(holds)
  const budbreak = first(({ stage }) => stage >= GREEN_TIP)
  const shoots = first(({ stage, shoots }) => stage >= THREE_LEAVES || (shoots ?? 0) >= SHOOTS_CM)
  const flowering = first(({ stage }) => stage >= FLOWERING)
  const hemisphere = hemisphereOf(ledger.vineyard.latitude)
  const usual = windowOf(winklerSeason[hemisphere], { season, hemisphere }).from
  const tell = (entry: (typeof seen)[number] | undefined, otherwise: string) =>
    entry
      ? `stage ${entry.stage} seen in ${ledger.blocks.get(entry.block)?.name ?? entry.block} on ${entry.date}`
      : otherwise
  return {
    budbreak: dayOf(budbreak?.date ?? usual),
    shoots: shoots ? dayOf(shoots.date) : null,
    flowering: flowering ? dayOf(flowering.date) : null,
    why: {
      budbreak: tell(budbreak, `no stage from ${GREEN_TIP} on is entered, so from ${usual}`),
      shoots: tell(shoots, 'no stage from 13 on is entered, so shoots are not asked about'),
      flowering: tell(flowering, 'no stage from 61 on is entered, so flowering is not asked about'),
    },
  }
}

/** The starts where there is no ledger: every day of the file, or from the budbreak named. */
export function startsOfFile(budbreak?: IsoDate): Starts {
  return {
    budbreak: budbreak === undefined ? null : dayOf(budbreak),
    shoots: null,
    flowering: null,
    why: {
      budbreak: budbreak === undefined ? 'from the first day of the file' : `budbreak as named, ${budbreak}`,
      shoots: 'shoots are not asked about',
      flowering: 'flowering is not asked about',
    },
  }
}
