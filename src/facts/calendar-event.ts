import { createHash } from 'node:crypto'
import type { Vineyard } from '../records/kinds/vineyard.ts'

/** An event in a calendar. */
export interface CalendarEvent {
  /** Stays the same for the same thing, so that importing again updates the event. */
  uid: string
  kind: 're-entry' | 'before-harvest' | 'cover' | 'window' | 'scouting' | 'picking'
  blocks: string[]
  /** ISO dates of whole days, the last included; or ISO times with offset where `allDay` is false. */
  start: string
  end: string
  allDay: boolean
  title: string
  detail: string
}

/** Built from the vineyard and what the event is about, never from what a later report may change. */
export function uidOf(
  { name, latitude }: Pick<Vineyard, 'name' | 'latitude'>,
  about: readonly string[],
): string {
  const hash = createHash('sha256').update(JSON.stringify([name, latitude, ...about]))
  return `${hash.digest('hex').slice(0, 32)}@rowbook.invalid`
}
