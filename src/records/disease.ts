/** The diseases that the ledger follows by name; a spray may be against other targets too, by their own word. */
export const DISEASES = ['powdery', 'downy', 'botrytis', 'black-rot', 'phomopsis'] as const

export type Disease = (typeof DISEASES)[number]
