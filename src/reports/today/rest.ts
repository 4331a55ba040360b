import { applicationsOf } from '../../facts/spraying/applications.ts'
import { stockOf } from '../../facts/spraying/stock.ts'
import { judge } from '../../rules/index.ts'
import { on, type TodayDraft, type TodayFrom } from './item.ts'

/**
 * The findings of `check` in this season. For a past day, entries of later days are not a mistake: they had not been
 * written then.
 */
export function checkItems({ ledger, asOf, season, isPast }: TodayFrom): TodayDraft[] {
  const all = [...ledger.findings, ...judge({ ledger, asOf, seasons: new Set([season]) })]
  const findings = all.filter(({ name }) => !isPast || name !== 'future-date')
  const errors = findings.filter(({ level }) => level === 'error').length
  const warnings = findings.filter(({ level }) => level === 'warning').length
  if (errors + warnings === 0) return []
  const first = [
    ...findings.filter(({ level }) => level === 'error'),
    ...findings.filter(({ level }) => level === 'warning'),
  ]
  const parts = [errors > 0 && plural(errors, 'error'), warnings > 0 && plural(warnings, 'warning')].filter(
    Boolean,
  )
  return [
    {
      ...on('check', []),
      urgency: errors > 0 ? 'now' : 'plan',
      until: null,
      text: `Your records have ${parts.join(' and ')}${first.length > 1 ? '. The first' : ''}: ${first[0]!.message}.`,
      short: `Your records have ${parts.join(' and ')}.`,
      reasons: first.slice(0, 3).map(({ message }) => message),
      next: 'rowbook check',
    },
  ]
}

const plural = (count: number, noun: string) => `${count} ${noun}${count === 1 ? '' : 's'}`

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
        ...on('stock', []),
        urgency: 'plan',
        until: null,
        text: `${product.name}: ${figure(left)} ${stock.unit} left, the last spray used ${figure(used)} ${stock.unit}.`,
        short: `${product.name}: ${figure(left)} ${stock.unit} left, the last spray used ${figure(used)}.`,
        next: `write what you have into products/${product.id}.yaml (stock, stocked)`,
      },
    ]
  })
}

const figure = (value: number) => String(Number(value.toPrecision(3)))
