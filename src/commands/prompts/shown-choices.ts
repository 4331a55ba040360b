import { highest } from '../../agronomy/statistics/extremes.ts'
import { safeLine } from '../../render/safe.ts'

/** Things to choose from, numbered, in two columns where they are many and short. */
export function renderChoices(choices: readonly { word: string; shown: string }[], columns: number): string {
  const wide = highest(choices.map(({ word }) => word.length))
  const lines = choices.map(({ word, shown }) => `  ${word.padStart(wide)}  ${safeLine(shown)}`)
  const half = Math.ceil(lines.length / 2)
  const left = highest(lines.slice(0, half).map((line) => line.length)) + 2
  const fits = left + Math.max(0, ...lines.slice(half).map((line) => line.length)) <= columns
  if (lines.length < 9 || !fits) return lines.map((line) => `${line}\n`).join('')
  return lines
    .slice(0, half)
    .map((line, index) => `${line.padEnd(left)}${lines[half + index] ?? ''}`.trimEnd())
    .map((line) => `${line}\n`)
    .join('')
}
