import { judgedApplications, productPath } from '../../facts/judged.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A product used before its authorisation began or after it ended. */
export const authorisationLapsed: Rule = {
  name: 'authorisation-lapsed',
  about: {
    what: 'A product was used on a day outside its authorisation. The last day itself is inside. If stocks may be used up for a time, write the end of that time as the last day.',
    limits: "The product's `authorisation` counts, `from` and `until`.",
    source: "the authorisation, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    judgedApplications(book).flatMap((one) => {
      const { spray, product } = one
      const { from, until } = product.authorisation ?? {}
      const key =
        until !== undefined && spray.date > until
          ? 'until'
          : from !== undefined && spray.date < from
            ? 'from'
            : null
      if (!key) return []
      const said = key === 'until' ? `ended on ${until}` : `begins on ${from}`
      return findingAt(spray, productPath(one), {
        level: 'error',
        message: `${product.id} was used on ${spray.date}, but its authorisation ${said} (${mention(product, ['authorisation', key])})`,
        help: "correct the date, or the product's record if the authorisation was extended; else stop using it",
      })
    }),
}
