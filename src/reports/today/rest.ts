import { growingSpan } from '../../facts/heat/window.ts'
import { listed } from '../../facts/sentences.ts'
import { applicationsOf } from '../../facts/spraying/applications.ts'
import { stockOf } from '../../facts/spraying/stock.ts'
import type { Level } from '../../ledger/read/finding.ts'
import { judge } from '../../rules/index.ts'
import { blockOptions, type TodayDraft, type TodayFrom } from './item.ts'

/** The one thing to do next in a new ledger; null once something is recorded. */
export function setupItem(from: TodayFrom): TodayDraft | null {
  const { ledger, season, asOf } = from
  const draft = (text: string, next: string): TodayDraft => ({
    what: 'setup',
    blocks: [],
    urgency: 'soon',
    text,
    next,
  })
  if (ledger.findings.length > 0) return null
  if (ledger.blocks.size === 0) return draft('No block yet. Record your first one.', 'rowbook note block')
  if (ledger.seasons.length > 0) return null
  const growing = growingSpan(ledger.vineyard, season)
  if (asOf < growing.from || asOf > growing.to)
    return draft('Nothing is recorded yet. Begin with the next work in the rows.', 'rowbook note work')
  const blocks = blockOptions(from, [...ledger.blocks.keys()])
  return draft('Nothing is recorded yet. Begin with the growth stage.', `rowbook note stage${blocks}`)
}

/**
 * The findings of `check` in this season. For a past day, entries of later days are not a mistake: they had not been
 * written then.
 */
export function checkItems({ ledger, asOf, season, isPast }: TodayFrom): TodayDraft[] {
  const all = [...ledger.findings, ...judge({ ledger, asOf, seasons: new Set([season]) })]
  const of = (wanted: Level) =>
    all.filter(({ name, level }) => level === wanted && !(isPast && name === 'future-date'))
  const [errors, warnings] = [of('error'), of('warning')]
  const first = [...errors, ...warnings]
  if (first.length === 0) return []
  const have = `Your records have ${listed([...plural(errors, 'error'), ...plural(warnings, 'warning')])}`
  return [
    {
      what: 'check',
      blocks: [],
      urgency: errors.length > 0 ? 'now' : 'plan',
      text: `${have}${first.length > 1 ? '. The first' : ''}: ${first[0]!.message}.`,
      short: `${have}.`,
      reasons: first.slice(0, 3).map(({ message }) => message),
      next: 'rowbook check',
    },
  ]
}

const plural = ({ length }: readonly unknown[], noun: string) =>
  length === 0 ? [] : [`${length} ${noun}${length === 1 ? '' : 's'}`]

/** Products of which less is left than their last spray took. */
export function stockItems({ ledger, asOf, season }: TodayFrom): TodayDraft[] {
  const sprays = ledger.sprays.filter((spray) => spray.season === season && spray.date <= asOf)
  const uses = applicationsOf(ledger, sprays)
  return [...ledger.products.values()].flatMap((product): TodayDraft[] => {
    const stock = stockOf(ledger, product, asOf)
    const last = uses.findLast((use) => use.product.id === product.id)?.spray
    if (!stock || stock.left === null || !last) return []
    const took = uses.filter((use) => use.spray.date === last.date && use.product.id === product.id)
    if (took.some(({ total }) => total === null || total.unit !== stock.unit)) return []
    const used = took.reduce((sum, { total }) => sum + total!.value, 0)
    if (stock.left >= used) return []
    const left = Math.max(0, stock.left)
    return [
      {
        what: 'stock',
        blocks: [],
        urgency: 'plan',
        text: `${product.name}: ${figure(left)} ${stock.unit} left, the last spray used ${figure(used)} ${stock.unit}.`,
        short: `${product.name}: ${figure(left)} ${stock.unit} left, the last spray used ${figure(used)}.`,
        next: `write what you have into products/${product.id}.yaml (stock, stocked)`,
      },
    ]
  })
}

const figure = (value: number) => String(Number(value.toPrecision(3)))
