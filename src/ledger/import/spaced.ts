import { recognise } from './recognise.ts'
import type { Recognised } from './recognised.ts'

type At = { file: string; text: string }

/** An export understood, with the text that it was understood in: its own, or with tabs where it has only spaces. */
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
    // A heading of more or fewer words than a row has cells would put readings under the wrong name.
    if (found && isEven(text, found.head)) return { at: { ...at, text }, recognised: found }
  }
  return { at, recognised: null }
}

function isEven(text: string, { names, end }: Recognised['head']): boolean {
  const row = text.slice(end).trimStart().split('\n', 1)[0]!
  return row.split('\t').length === names.length && !names.some((name) => /^column \d+$/.test(name))
}
