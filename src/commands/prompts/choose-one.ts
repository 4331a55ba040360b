import type { Env } from '../plumbing/env.ts'
import { readChosen } from './choices.ts'
import { LineInput } from './line-input.ts'
import { askQuestion } from './question.ts'

/** Asks for one thing of a list. @returns its id, or null where the grower left. */
export async function chooseOne(
  ask: string,
  things: readonly { id: string; name: string; shown: string }[],
  { err, columns }: Pick<Env, 'err' | 'columns'>,
): Promise<string | null> {
  const input = new LineInput()
  try {
    const choices = things.map(({ shown }, index) => ({ word: String(index + 1), shown }))
    const why = 'The first kinds are entries of this season; the last are things that you have.'
    const read = (text: string) => {
      const { chosen, fault } = readChosen(text, things, { several: false })
      return fault === undefined ? { parts: [{ option: 'kind', text: chosen[0]!.id }] } : { fault }
    }
    const question = { key: 'kind', ask, why, choices, required: true, preset: '', read }
    const answer = await askQuestion(question, { input, say: err, columns })
    return answer.came === 'answer' ? (answer.parts[0]?.text ?? null) : null
  } finally {
    input.close()
  }
}
