import type { IsoDate } from '../../records/date.ts'
import type { Spray } from '../../records/kinds/spray.ts'
import { spokenDate } from '../../records/spoken-date.ts'

/** What an adviser or the authority decided about a spray over its label. */
export interface Clearance {
  by: string
  on: IsoDate
  pickFrom: IsoDate
  /** People may enter from the start of this day: as named, else the day of picking. */
  enterFrom: IsoDate
}

/** The clearance recorded in a spray; null where there is none. */
export function clearanceOf({ cleared }: Pick<Spray, 'cleared'>): Clearance | null {
  if (!cleared) return null
  const { by, on, pick_from: pickFrom, enter_from: enterFrom = pickFrom } = cleared
  return { by, on, pickFrom, enterFrom }
}

/** `as cleared by R. Vos, adviser, on Thu 20 Aug`. */
export const clearedText = ({ by, on }: Clearance): string => `as cleared by ${by} on ${spokenDate(on)}`
