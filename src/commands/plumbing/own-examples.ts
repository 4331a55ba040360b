import type { Units } from '../../facts/book-units.ts'

/** Amounts that stand as examples in what is said of a slip, as growers of each country type them. */
const EXAMPLES: readonly (readonly [metric: string, us: string, imperial: string])[] = [
  ['300 L/ha', '30 US gal/acre', '30 imp gal/acre'],
  ['135L', '35 US gal', '30 imp gal'],
  ['12L', '3 US gal', '3 imp gal'],
  ['3L', '1 US gal', '1 imp gal'],
  ['0.45ha', '1.1acre', '1.1acre'],
  ['3 kg/ha', '3 lb/acre', '3 lb/acre'],
  ['5 kg/ha', '5 lb/acre', '5 lb/acre'],
  ['72m2', '1/128acre', '1/128acre'],
]

/** What is proposed to type, with its examples in the units of a site; what holds a space is put in quotes. */
export function inOwnExamples(help: string, units: Units): string {
  if (units === 'metric') return help
  return EXAMPLES.reduce(
    (text, [metric, us, imperial]) =>
      text.replace(new RegExp(`(")?(?<![\\d.])${metric}(?!\\w)(")?`, 'g'), (_, before = '', after = '') => {
        const own = units === 'us' ? us : imperial
        return before === '' && after === '' && own.includes(' ') ? `"${own}"` : `${before}${own}${after}`
      }),
    help,
  )
}
