export const TOPICS = [
  'spraying',
  'law and resistance',
  'disease',
  'ripening',
  'when to pick',
  'crop and harvest',
  'heat',
  'the records',
] as const

type Topic = (typeof TOPICS)[number]

/**
 * How a source is known: read; read in another source that reports it; calculated here from what it gives; recalled
 * and not verified; a rule of the trade without a source; or our own rule or arithmetic. Where parts of a figure
 * are known in different ways, the weakest counts, and the source says which part is which.
 */
export type Basis = 'read' | 'second-hand' | 'derived' | 'memory' | 'common practice' | 'own'

/** A computed figure, and what supports it. */
export interface Figure {
  /** The name that `explain` takes: lower-case words joined by hyphens. */
  name: string
  topic: Topic
  /** Keys of the JSON contract that hold this figure, report first: `mix.lastTank`. */
  keys: readonly string[]
  what: string
  formula?: string
  units?: string
  limits?: string
  /** The choice made where sources differ. */
  choices?: string
  source: string
  basis: Basis
}

/** Figures of one folder: all of one topic, except those that name their own. */
export const figures = (
  of: Topic,
  all: readonly (Omit<Figure, 'topic'> & { topic?: Topic })[],
): readonly Figure[] => all.map(({ name, topic = of, ...rest }) => ({ name, topic, ...rest }))

/** Keys of one part of a report, from names separated by spaces: `mix.products`, `rate total`. */
export const under = (part: string, names: string): string[] =>
  names.split(' ').map((name) => `${part}.${name}`)
