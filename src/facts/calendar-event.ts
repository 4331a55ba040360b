import { createHash } from 'node:crypto'
import type { Vineyard } from '../records/vineyard.ts'

/** Something that stands in a calendar. */
export interface CalendarEvent {
  /** Stays the same as long as the event is about the same thing, so that a second import updates it. */
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

/** Made of the vineyard and of what the event is about, and of nothing that a later look may change. */
export function uidOf(
  { name, latitude }: Pick<Vineyard, 'name' | 'latitude'>,
  about: readonly string[],
): string {
  const hash = createHash('sha256').update(JSON.stringify([name, latitude, ...about]))
  return `${hash.digest('hex').slice(0, 32)}@rowbook.invalid`
}
