import { recognise } from './recognise.ts'
import type { Recognised } from './recognised.ts'

type At = { file: string; text: string }

/** A recognised export with the text used: its own, or with tabs where only spaces separate its cells. */
export function understood(
  at: At,
  site: Parameters<typeof recognise>[1],
  said: Parameters<typeof recognise>[2],
): { at: At; recognised: Recognised | null } {
  const recognised = recognise(at.text, site, said)
  if (recognised || said.how?.separator !== undefined) return { at, recognised }
  for (const run of [/ {2,}|\t/g, / +|\t/g]) {
    const text = at.text
      .split('\n')
      .map((line) => line.trim().replace(run, '\t'))
      .join('\n')
    const found = recognise(text, site, said)
    // If heading words and row cells differ in number, readings would get the wrong names.
    if (found && isEven(text, found.head)) return { at: { ...at, text }, recognised: found }
  }
  return { at, recognised: null }
}

function isEven(text: string, { names, end }: Recognised['head']): boolean {
  const row = text.slice(end).trimStart().split('\n', 1)[0]!
  return row.split('\t').length === names.length && !names.some((name) => /^column \d+$/.test(name))
}
