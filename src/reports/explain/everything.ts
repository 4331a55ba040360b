import { type Basis, type Figure, TOPICS } from '../../facts/figure.ts'
import { CAUTION } from '../../facts/report.ts'
import { RULES } from '../../rules/index.ts'
import { FIGURES } from './figures.ts'
import { SHAPE_FINDINGS } from './shape-findings.ts'

/** The explanation of a figure or a finding. */
export type Explained = Omit<Figure, 'topic' | 'keys'> & {
  kind: 'figure' | 'finding'
  topic: string
  keys: readonly string[]
}

/** Topics in the order in which they are listed; findings come last. */
export const LISTED_TOPICS: readonly string[] = [...TOPICS, 'findings of rules', 'findings of reading']

/** All that can be explained, by topic: figures first, then findings of rules, then those of reading. */
export function everything(): Explained[] {
  const finding = (topic: string) => ({ kind: 'finding' as const, topic, keys: [] })
  return [
    ...TOPICS.flatMap((topic) => FIGURES.filter((figure) => figure.topic === topic)).map(
      (figure): Explained => ({ ...figure, kind: 'figure' }),
    ),
    ...RULES.map(({ name, check: _, ...about }) => ({ ...about, name, ...finding('findings of rules') })),
    ...Object.entries(SHAPE_FINDINGS).map(([name, what]) => ({
      name,
      what,
      ...finding('findings of reading'),
      source: 'own: the format of the ledger',
      basis: 'own' as const,
    })),
  ]
}

/** Which cautions belong to a topic; those of findings are the law's and the label's. */
const CAUTIONS: Readonly<Record<string, readonly string[]>> = {
  spraying: [CAUTION.dose, CAUTION.clearance],
  'law and resistance': [CAUTION.clearance],
  'findings of rules': [CAUTION.clearance],
  'findings of reading': [],
  'the records': [],
}

/** The cautions for what is explained, each once: doses, clearances, else estimates. */
export const cautionsFor = (found: readonly Explained[]): string[] => [
  ...new Set(found.flatMap(({ topic }) => CAUTIONS[topic] ?? [CAUTION.estimate])),
]

/** The reports that the page of a season holds. */
const IN_SEASON: readonly string[] =
  'totals heat pressure cover scouting ripeness window crop harvest ready'.split(' ')

/**
 * The footnotes of a report: each figure that it gives, with its source and how that is known.
 * @param report name of the report, like `totals`.
 */
export function sourcesOf(report: string): string[] {
  const reports = report === 'season' ? IN_SEASON : [report]
  return FIGURES.filter(({ keys }) => keys.some((key) => reports.includes(key.split('.')[0]!))).map(
    (figure) => `${figure.name}: ${sourceAndBasis(figure)}.`,
  )
}

/** How a source is known, in words. */
const BASIS: Readonly<Record<Basis, string>> = {
  read: 'source read',
  'second-hand': 'second-hand',
  derived: 'worked out here from it',
  memory: 'from memory',
  'common practice': 'common practice, no source',
  own: 'our own rule or sum',
}

/** A source followed by how it is known. */
export function sourceAndBasis({ source, basis }: Pick<Explained, 'source' | 'basis'>): string {
  return source.includes(BASIS[basis]) ? source : `${source} (${BASIS[basis]})`
}
