/** The diseases that the ledger follows by name; a spray may be against other targets too, by their own word. */
export const DISEASES = ['powdery', 'downy', 'botrytis', 'black-rot', 'phomopsis'] as const

export type Disease = (typeof DISEASES)[number]

/** Those that are judged where `vineyard.yaml` names none. */
export const USUAL_DISEASES: readonly Disease[] = ['powdery', 'downy', 'botrytis']
