/** The diseases that the ledger follows by name; a spray may be against other targets too, by their own word. */
export const DISEASES = ['powdery', 'downy', 'botrytis', 'black-rot', 'phomopsis'] as const

export type Disease = (typeof DISEASES)[number]

/** The disease in a sentence: `black rot`. */
export const diseaseWord = (disease: string): string => disease.replace('-', ' ')

/** Those that are judged where `vineyard.yaml` names none. */
export const USUAL_DISEASES: readonly Disease[] = ['powdery', 'downy', 'botrytis']
