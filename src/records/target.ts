import { text } from './fields.ts'

/** The diseases that the book follows by name; a spray may be against other targets too, by their own word. */
export const DISEASES = ['powdery', 'downy', 'botrytis', 'black-rot', 'phomopsis'] as const

export type Disease = (typeof DISEASES)[number]

/** What a spray is against: one of the diseases, or a pest's plain name. */
export const target = (description: string) => text(description, ['powdery'])
