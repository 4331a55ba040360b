export const TOPICS = [
  'spraying',
  'law and resistance',
  'disease',
  'ripening',
  'when to pick',
  'crop and harvest',
  'heat',
  'the book',
] as const

type Topic = (typeof TOPICS)[number]

/** How a source is known. */
export type Basis = 'read' | 'memory' | 'common practice' | 'own'

/** A computed figure, and what stands behind it. */
export interface Figure {
  /** What `explain` takes: lower-case words joined by hyphens. */
  name: string
  topic: Topic
  /** Keys of the JSON contract that it is the figure of, report first: `mix.lastTank`. */
  keys: readonly string[]
  what: string
  formula?: string
  units?: string
  limits?: string
  /** Which way was taken where sources differ. */
  choices?: string
  source: string
  /**
   * How the source is known: it was read, it is cited from memory, it is common practice without a source, or
   * the arithmetic is our own.
   */
  basis: Basis
}

/** The limit of what is reckoned from samples, counts and weather. */
export const ESTIMATE = 'an estimate: look, taste and measure again'
