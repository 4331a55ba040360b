import { growingSpan } from '../../facts/heat/window.ts'
import { blockOptions, on, type TodayDraft, type TodayFrom } from './item.ts'

const draft = (text: string, next: string): TodayDraft => ({
  ...on('setup', []),
  urgency: 'soon',
  until: null,
  text,
  short: null,
  next,
})

/**
 * The one thing to do next in a new ledger; null once something is recorded.
 */
export function setupItem(from: TodayFrom): TodayDraft | null {
  const { ledger, season, asOf } = from
  if (ledger.findings.length > 0) return null
  if (ledger.blocks.size === 0) return draft('No block yet. Record your first one.', 'rowbook note block')
  if (ledger.seasons.length > 0) return null
  const growing = growingSpan(ledger.vineyard, season)
  if (asOf < growing.from || asOf > growing.to)
    return draft('Nothing is recorded yet. Begin with the next work in the rows.', 'rowbook note work')
  const blocks = blockOptions(from, [...ledger.blocks.keys()])
  return draft('Nothing is recorded yet. Begin with the growth stage.', `rowbook note stage${blocks}`)
}
