import type { Ledger } from '../../ledger/read/ledger.ts'
import { dayOf, isoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { productNames } from '../names.ts'
import { clearedText } from '../spraying/clearance.ts'
import { type LegalFrom, unknownIntervalText } from '../spraying/legal-from.ts'
import { overLabelSentence } from '../spraying/over-label.ts'
import type { SugarWindow } from './sugar-window.ts'

/** What conflicts with a block's window, in sentences. */
export function conflictsOf(
  ledger: Ledger,
  { window, legal }: { window: SugarWindow | null; legal: LegalFrom },
): string[] {
  const lines: string[] = []
  if (legal.overLabel.length > 0) lines.push(overLabelSentence(legal.overLabel))
  if (legal.unknown.length > 0) lines.push(unknownIntervalText(productNames(ledger, legal.unknown)))
  if (window === null || legal.date === null || legal.by === null) return lines
  const from = dayOf(legal.date)
  const by = legal.by.cleared ? `, ${clearedText(legal.by.cleared)}` : ''
  const why = `${legal.by.name} (sprayed ${spokenDate(legal.by.sprayed)}${by}) allows picking only from ${spokenDate(legal.date)}`
  if (window.latest !== null && window.latest < from)
    lines.push(`${why}; the window closes on ${spokenDate(isoDate(window.latest))}.`)
  else if (window.likely !== null && window.likely < from)
    lines.push(`${why}; the likely day is ${spokenDate(isoDate(window.likely))}.`)
  return lines
}
