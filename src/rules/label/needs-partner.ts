import { judged } from '../../facts/judged.ts'
import { both } from '../../facts/say.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** A product used without the partner that its label needs. */
export const needsPartner: Rule = {
  name: 'needs-partner',
  about: {
    what: 'The label allows this product only together with a partner, for resistance or because it does not work alone. No partner was in the tank.',
    limits: "the product's `with`: one of the products listed there is enough",
    source: "your label, as copied into the product's record",
    basis: 'own',
  },
  check: (book) =>
    judged(book, 'sprays').flatMap((spray) =>
      spray.products.flatMap(({ product: id }, index) => {
        const product = book.ledger.products.get(id)
        const partners = product?.with
        if (!product || !partners) return []
        if (spray.products.some(({ product }) => partners.includes(product))) return []
        return [
          findingAt(spray, ['products', index, 'product'], {
            name: 'needs-partner',
            level: 'error',
            message: `the label of ${id} needs ${both(partners)} in the same tank (${mention(product, ['with'])})`,
            help: 'add the partner to the entry if it was in the tank; else never use it alone',
          }),
        ]
      }),
    ),
}
