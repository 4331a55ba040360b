import type { SeasonKind } from '../../records/kinds.ts'

/** Kinds of which what is counted or measured is of one block: several blocks are asked about in turn. */
export const BLOCK_BY_BLOCK: ReadonlySet<SeasonKind> = new Set(['scouting', 'samples', 'crop', 'picks'])
