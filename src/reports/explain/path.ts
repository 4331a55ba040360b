import type { Figure } from '../../facts/figure.ts'
import { FIGURES } from './figures.ts'

/** Parts of a report's data that repeat another's, with what they repeat. */
const REPEATED: readonly (readonly [RegExp, string])[] = [
  [/^season\.(?=\w+\.)/, ''],
  [/^totals\.seasons\.(?=blocks|vineyard|store)/, 'totals.'],
  [/^totals\.vineyard\./, 'totals.blocks.'],
  [/^cover\.blocks\.diseases\./, 'cover.blocks.'],
  [/^harvest\.totals\./, 'harvest.blocks.'],
  [/^ripeness\.trends\.(?:ta|ph)\./, 'ripeness.trends.'],
  [/^scouting\.firsts\./, 'scouting.walks.'],
]

/** The figures that explain a place of a report's data: those that name it, else those that name what it is a part of. */
export function figuresAt(path: string): readonly Figure[] {
  const plain = REPEATED.reduce((key, [repeated, of]) => key.replace(repeated, of), path)
  const steps = plain.split('.')
  for (let length = steps.length; length > 1; length--) {
    const key = steps.slice(0, length).join('.')
    const found = FIGURES.filter(({ keys }) => keys.includes(key))
    if (found.length > 0) return found
  }
  return []
}
