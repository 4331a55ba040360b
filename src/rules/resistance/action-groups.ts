import { GROUP_LIMITS, mostPerSeason } from '../../agronomy/spraying/group-limits.ts'
import { groupRuns } from '../../agronomy/spraying/resistance.ts'
import { productPath } from '../../facts/judged.ts'
import { groupsOf, type Sequence, sequences } from '../../facts/spraying/group-sequence.ts'
import { diseaseWord } from '../../records/disease.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

/** One mode-of-action group too often in a row. */
export const actionGroupRun: Rule = {
  name: 'action-group-run',
  what: "A mode-of-action group was used more often in a row against one disease on one block than is allowed. In a row means in consecutive sprays against that disease; any spray without the group starts a new count. A product with two active substances counts in both groups. Above the label it is an error; above an advisory body's limit, a warning.",
  limits:
    "The limit is the product's `max_in_row`. Without it: group 49 against downy 1 (FRAC, January 2024); groups 3, 5 and 13 against powdery 2 (Avcare (Australia) via AWRI, some 20 years old).",
  source:
    'your label; FRAC OSBPI working group, January 2024; Avcare (now CropLife Australia), limits some 20 years old, second-hand, read in AWRI, year not known',
  basis: 'second-hand',
  check: (input) => sequences(input).flatMap(breaches),
}

function breaches({ disease, sprays }: Sequence): Found[] {
  return groupRuns(sprays.map(({ groups }) => groups)).flatMap(({ group, from, to }) => {
    const advice = GROUP_LIMITS.find((limit) => limit.group === group && limit.disease === disease)
    return sprays.slice(from, to + 1).flatMap(({ applications }, index) => {
      const one = applications.find((application) => groupsOf(application).includes(group))!
      const label = one.product.max_in_row
      const most = label ?? advice?.maxInRow ?? Infinity
      if (index + 1 <= most) return []
      const whose =
        label === undefined
          ? `${advice!.body}${advice!.year ? ` ${advice!.year}` : ''}`
          : `the label, ${mention(one.product, ['max_in_row'])}`
      return findingAt(one.spray, productPath(one), {
        level: label === undefined ? 'warning' : 'error',
        message: `group ${group} for the ${nth(index + 1)} time in a row against ${diseaseWord(disease)}. At most ${most} (${whose})`,
        help: 'change to another group for the next spray',
      })
    })
  })
}

const nth = (count: number) => ['', 'first', 'second', 'third', 'fourth'][count] ?? `${count}th`

/** One mode-of-action group too often in a season. */
export const actionGroupCount: Rule = {
  name: 'action-group-count',
  what: 'A mode-of-action group was used more often than an advisory body advises. It counts a season, one disease and one block. The limits differ by body and year, and the label comes first.',
  limits:
    "Group 49 against downy is allowed twice, and once where there are 4 sprays or fewer. Against powdery, groups 3, 5 and 13 are allowed 3 times, group 11 twice. Group 49 should also be at most 33 % of the time under protection. That can't be counted in sprays, so `rowbook totals` shows it.",
  source:
    'FRAC OSBPI working group, January 2024; AWRI eBulletin, 19 June 2012; Avcare (now CropLife Australia), limits some 20 years old, second-hand, read in AWRI, year not known',
  basis: 'second-hand',
  check: (input) =>
    sequences(input).flatMap(({ disease, sprays }) =>
      GROUP_LIMITS.filter((limit) => limit.disease === disease).flatMap((limit) => {
        const held = sprays.filter((spray) => spray.groups.includes(limit.group))
        const most = mostPerSeason(limit, sprays.length)
        if (held.length <= most) return []
        const last = held[most]!.applications.find((one) => groupsOf(one).includes(limit.group))!
        return findingAt(last.spray, productPath(last), {
          message: `group ${limit.group}: ${held.length} times this season against ${diseaseWord(disease)}, in ${sprays.length} sprays; at most ${most} (${limit.body}${limit.year ? `, ${limit.year}` : ''})`,
          help: 'use another group for the rest of the season',
        })
      }),
    ),
}
