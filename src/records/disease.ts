import { distance } from 'fastest-levenshtein'

/** The diseases that the ledger follows by name; a spray may be against other targets too, by their own word. */
export const DISEASES = ['powdery', 'downy', 'botrytis', 'black-rot', 'phomopsis'] as const

export type Disease = (typeof DISEASES)[number]

/** The disease in a sentence: `black rot`. */
export const diseaseWord = (disease: string): string => disease.replace('-', ' ')

/** Those that are judged where `vineyard.yaml` names none. */
export const USUAL_DISEASES: readonly Disease[] = ['powdery', 'downy', 'botrytis']

/** Growers' names for the diseases; common practice, no source. */
export const DISEASE_NAMES: Readonly<Record<Disease, string>> = {
  powdery: 'powdery mildew',
  downy: 'downy mildew',
  botrytis: 'botrytis bunch rot',
  'black-rot': 'black rot',
  phomopsis: 'phomopsis cane and leaf spot',
}

/** Other words for the diseases, and the fungi that cause them; common practice, no source. */
export const OTHER_DISEASE_NAMES: Readonly<Record<string, Disease>> = Object.fromEntries(
  Object.entries({
    powdery: 'oidium, erysiphe, erysiphe necator, uncinula, uncinula necator',
    downy: 'peronospora, plasmopara, plasmopara viticola',
    botrytis: 'grey mould, gray mold, grey rot, gray rot, bunch rot, botrytis cinerea',
    'black-rot': 'guignardia, guignardia bidwellii',
    phomopsis: 'phomopsis viticola',
  }).flatMap(([disease, names]) => names.split(', ').map((name) => [name, disease as Disease])),
)

/** The disease that somebody names in whatever form (`Powdery`, `powdery mildew`, `Black Rot`), or null. */
export function diseaseMeant(words: string): Disease | null {
  const plain = words
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
  const named = DISEASES.find((one) => one.replace('-', ' ') === plain || DISEASE_NAMES[one] === plain)
  return named ?? (Object.hasOwn(OTHER_DISEASE_NAMES, plain) ? OTHER_DISEASE_NAMES[plain]! : null)
}

/** The disease meant by a word that is one or two letters off, or null. */
export function misspeltDisease(word: string): Disease | null {
  if (word.length < 4 || diseaseMeant(word) !== null) return null
  const plain = word.toLowerCase()
  return DISEASES.find((one) => distance(one, plain) <= (word.length < 6 ? 1 : 2)) ?? null
}

/** Several targets named in one text, `downy mildew and powdery`, where one of them is a disease; null where it is one. */
export function severalTargets(words: string): string[] | null {
  if (diseaseMeant(words) !== null) return null
  const parts = words
    .split(/[,;&+/]|\b(?:and|or)\b/i)
    .map((part) => part.trim())
    .filter((part) => part !== '')
  if (parts.length < 2 || !parts.some((part) => diseaseMeant(part) !== null)) return null
  return parts.map((part) => diseaseMeant(part) ?? part)
}
