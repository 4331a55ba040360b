import type { Units } from '../../facts/ledger-units.ts'

/** Example amounts in error messages, as growers of each country type them. */
const EXAMPLES: ReadonlyMap<string, Record<Exclude<Units, 'metric'>, string>> = new Map([
  ['300 L/ha', { us: '30 US gal/acre', imperial: '30 imp gal/acre' }],
  ['135L', { us: '35 US gal', imperial: '30 imp gal' }],
  ['12L', { us: '3 US gal', imperial: '3 imp gal' }],
  ['3L', { us: '1 US gal', imperial: '1 imp gal' }],
  ['0.45ha', { us: '1.1acre', imperial: '1.1acre' }],
  ['3 kg/ha', { us: '3 lb/acre', imperial: '3 lb/acre' }],
  ['5 kg/ha', { us: '5 lb/acre', imperial: '5 lb/acre' }],
  ['72m2', { us: '1/128acre', imperial: '1/128acre' }],
])

const AMOUNT = /("?)(?<![\d.])(\d+(?:\.\d+)? ?[A-Za-z]\w*(?:\/ha)?)("?)/g

/** A help text with its examples in the units of the site; an example with a space is put in quotes. */
export function inOwnExamples(help: string, units: Units): string {
  if (units === 'metric') return help
  return help.replace(AMOUNT, (typed, before: string, metric: string, after: string) => {
    const own = EXAMPLES.get(metric)?.[units]
    if (own === undefined) return typed
    return before === '' && after === '' && own.includes(' ') ? `"${own}"` : `${before}${own}${after}`
  })
}
