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

const BASES = ['read', 'second-hand', 'derived', 'memory', 'common practice', 'own'] as const

/**
 * How a source is known: read; read in another source that reports it; calculated here from what it gives; recalled
 * and not verified; a rule of the trade without a source; or our own rule or arithmetic. Where parts of a figure
 * are known in different ways, the weakest counts, and the source says which part is which.
 */
export type Basis = (typeof BASES)[number]

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

/** The source of a figure under the word for how it is known: `read: 'Wilson 1927'`; exactly one. */
type Sourced = { [B in Basis]: Record<B, string> & Partial<Record<Exclude<Basis, B>, never>> }[Basis]

/** A figure as its report writes it, of the topic of the others unless it names its own. */
export type WrittenFigure = Omit<Figure, 'topic' | 'source' | 'basis'> & { topic?: Topic } & Sourced

/** The figures of one folder. */
export const figures = (of: Topic, all: readonly WrittenFigure[]): readonly Figure[] =>
  all.map(({ name, topic = of, keys, what, formula, units, limits, choices, ...sourced }) => {
    const basis = BASES.find((one) => sourced[one] !== undefined)!
    return { name, topic, keys, what, formula, units, limits, choices, source: sourced[basis]!, basis }
  })

/** Keys of one part of a report, from names separated by spaces: `mix.products`, `rate total`. */
export const under = (part: string, names: string): string[] =>
  names.split(' ').map((name) => `${part}.${name}`)
