import { DISEASES } from '../../records/disease.ts'
import { normalGroup } from '../../records/fields/label-codes.ts'
import { groupedBy, type JudgedLedger, judgedApplications } from '../judged.ts'
import type { Application } from './applications.ts'

/** The sprays of a season against one disease on one block, oldest first. */
export type Sequence = ReturnType<typeof sequences>[number]

/** Every sequence of sprays to judge, by block, season and disease. */
export function sequences(input: JudgedLedger) {
  const mine = groupedBy(judgedApplications(input), ({ block, spray }) => `${block.id} ${spray.season}`)
  return [...mine.values()].flatMap((list) =>
    DISEASES.map((disease) => ({ disease, sprays: spraysAgainst(list, disease) })),
  )
}

/** Each spray against a disease: its applications, and their groups. */
export function spraysAgainst(list: readonly Application[], disease: string) {
  const against = list.filter(
    ({ targets, product }) => targets.includes(disease) && product.kind !== 'adjuvant',
  )
  const sprays = new Map<object, Application[]>()
  for (const one of against) sprays.set(one.spray, [...(sprays.get(one.spray) ?? []), one])
  return [...sprays.values()].map((applications) => ({
    applications,
    groups: [...new Set(applications.flatMap(groupsOf))],
  }))
}

export const groupsOf = ({ product }: Pick<Application, 'product'>): string[] =>
  product.actives.flatMap(({ group }) => (group === undefined ? [] : [normalGroup(group)]))
