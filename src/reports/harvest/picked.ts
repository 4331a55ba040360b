import { entriesOf } from '../../facts/block-entries.ts'
import type { Ledger } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'

/** What was picked of a block this season, against the plan. */
export type Picked = NonNullable<ReturnType<typeof pickedOf>>

/** The picks of a block in a season up to a day; null where there is none. */
export function pickedOf(
  ledger: Ledger,
  block: string,
  of: { season: number; asOf: IsoDate; planned: number | null; rate: number },
) {
  const picks = entriesOf(ledger.picks, { ...of, block })
  const last = picks.at(-1)
  if (!last) return null
  const weight = picks.reduce((sum, pick) => sum + pick.weight, 0)
  const personHours = sumOf(picks.map(({ people, hours }) => people && hours && people * hours))
  const juice = sumOf(picks.map((pick) => pick.juice))
  const rest = last.rest === undefined ? null : last.rest / 100
  const rate = personHours === null ? null : weight / personHours
  const whole = rest === null || rest === 0
  return {
    /** Day of the last pick. */
    date: last.date,
    picks: picks.length,
    /** kg */
    weight,
    /** Share of the block that still hangs, 0 to 1, as written with the last pick; null where it wasn't. */
    rest,
    /** Weight less the plan as a share of the plan; null where there was no plan, or fruit still hangs. */
    againstPlan: of.planned === null || of.planned <= 0 || !whole ? null : weight / of.planned - 1,
    /** kg per person-hour; null where people or hours weren't written. */
    rate,
    /** Rate less the planned one as a share of it. */
    rateAgainstPlan: rate === null ? null : rate / of.rate - 1,
    /** Litres of juice pressed, and litres a tonne. */
    juice,
    juicePerTonne: juice === null ? null : (juice / weight) * 1000,
    brix: last.brix ?? null,
  }
}

/** Whether a block, or the rest of it after a pick in part, is still to pick. */
export const isToPick = ({ picked }: { picked: Pick<Picked, 'rest'> | null }): boolean =>
  picked === null || (picked.rest ?? 0) > 0

/** The sum; null where one of the figures isn't written. */
const sumOf = (figures: readonly (number | undefined)[]): number | null =>
  figures.includes(undefined) ? null : figures.reduce<number>((sum, each) => sum + each!, 0)
