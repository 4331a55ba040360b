import { GROUP_LIMITS, groupBreaches } from '../../agronomy/spraying/group-limits.ts'
import { productPath } from '../../facts/judged.ts'
import { once } from '../../facts/say.ts'
import { groupsOf, sequences } from '../../facts/spraying/group-sequence.ts'
import { findingAt, type Rule } from '../rule.ts'

/** One mode-of-action group too often in a season. */
export const actionGroupCount: Rule = {
  name: 'action-group-count',
  about: {
    what: 'A mode-of-action group was used more often in a season against one disease on one block than an advisory body advises. The limits differ by body and year; the label comes first.',
    limits:
      "group 49 against downy 2, and 1 where there are 4 sprays or fewer; groups 3, 5 and 13 against powdery 3, group 11 against powdery 2. That group 49 should be at most 33 % of the time under protection can't be counted in sprays; `rowbook totals` shows it",
    source:
      'FRAC OSBPI working group, January 2024; AWRI eBulletin, 19 June 2012; Avcare (now CropLife Australia), limits some 20 years old, second-hand, read in AWRI, year not known',
    basis: 'second-hand',
  },
  check: (book) =>
    once(
      sequences(book).flatMap(({ disease, sprays }) =>
        GROUP_LIMITS.filter((limit) => limit.disease === disease).flatMap((limit) => {
          const groups = sprays.map((spray) => spray.groups)
          const broken = groupBreaches(groups, limit).find(({ kind }) => kind === 'per-season')
          if (!broken) return []
          const held = sprays.filter((spray) => spray.groups.includes(limit.group))
          const last = held[broken.allowed]!.applications.find((one) => groupsOf(one).includes(limit.group))!
          return [
            findingAt(last.spray, productPath(last), {
              name: 'action-group-count',
              level: 'warning',
              message: `group ${limit.group}: ${broken.found} times this season against ${disease}, in ${sprays.length} sprays; at most ${broken.allowed} (${limit.body}${limit.year ? `, ${limit.year}` : ''})`,
              help: 'use another group for the rest of the season',
            }),
          ]
        }),
      ),
    ),
}
