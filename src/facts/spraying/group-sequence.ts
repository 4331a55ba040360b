import { DISEASES } from '../../records/disease.ts'
import { normalGroup } from '../../records/fields/label-codes.ts'
import { applications, groupedBy, isJudged, type JudgedLedger } from '../judged.ts'
import type { Application } from './applications.ts'

/** One spray of a sequence: its applications against the disease on the block, and their groups. */
export interface GroupSpray {
  applications: Application[]
  groups: string[]
}

/** The sprays of a season against one disease on one block, oldest first. */
export interface Sequence {
  disease: (typeof DISEASES)[number]
  sprays: GroupSpray[]
}

/** Every sequence of sprays to judge, by block, season and disease. */
export function sequences(input: JudgedLedger): Sequence[] {
  const mine = applications(input).filter(({ spray }) => isJudged(input, spray))
  return [...groupedBy(mine, ({ block, spray }) => `${block.id} ${spray.season}`).values()].flatMap((list) =>
    DISEASES.map((disease) => ({ disease, sprays: spraysAgainst(list, disease) })),
  )
}

function spraysAgainst(list: readonly Application[], disease: string): GroupSpray[] {
  const sprays = new Map<object, Application[]>()
  for (const one of list) {
    if (!one.targets.includes(disease) || one.product.kind === 'adjuvant') continue
    sprays.set(one.spray, [...(sprays.get(one.spray) ?? []), one])
  }
  return [...sprays.values()].map((some) => ({
    applications: some,
    groups: [...new Set(some.flatMap(groupsOf))],
  }))
}

export const groupsOf = ({ product }: Application): string[] =>
  product.actives.flatMap(({ group }) => (group === undefined ? [] : [normalGroup(group)]))
