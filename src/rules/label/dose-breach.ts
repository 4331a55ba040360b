import type { Book } from '../../facts/book.ts'
import { dosePath, judgedApplications } from '../../facts/judged.ts'
import { above, once, say } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import type { DoseLimit } from '../../facts/spraying/label.ts'
import { type DoseOver, dosesOver, OVER_LABEL } from '../../facts/spraying/over-label.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { findingAt, mention } from '../rule.ts'

/** Doses above the label's maximum, in the forms asked for. */
export function overLimit(book: Book, name: string, forms: readonly DoseLimit['form'][]): Finding[] {
  return once(
    judgedApplications(book).flatMap((one) =>
      dosesOver(one)
        .filter(({ limit }) => forms.includes(limit.form))
        .map((most) => over(one, name, most)),
    ),
  )
}

function over(one: Application, name: string, { limit, value }: DoseOver): Finding {
  const { high, unit, against, path, inWater } = limit
  const derived = inWater === undefined ? '' : `, in the label's minimum water, ${say(inWater, 'L/ha')}`
  return findingAt(one.spray, dosePath(one), {
    name,
    level: 'error',
    message: `${say(value, unit)} of ${one.product.id} is ${above(value, high)} the label's maximum, ${say(high, unit)} against ${against}${derived} (${mention(one.product, path)})`,
    help: `correct the entry if mistyped; if it was really sprayed, it is ${OVER_LABEL}`,
  })
}
