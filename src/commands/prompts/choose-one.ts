import { readAs } from './choices.ts'
import { askQuestion, type Screen } from './question.ts'

/** Asks for one thing of a list. @returns its id, or null where the grower left. */
export async function chooseOne(
  ask: string,
  things: readonly { id: string; name: string; shown: string }[],
  screen: Screen,
): Promise<string | null> {
  const choices = things.map(({ shown }, index) => ({ word: String(index + 1), shown }))
  const why = 'The first kinds are entries of this season; the last are things that you have.'
  const read = readAs('kind', things)
  const question = { key: 'kind', ask, why, choices, required: true, preset: '', read }
  const answer = await askQuestion(question, screen)
  return answer.came === 'answer' ? (answer.parts[0]?.text ?? null) : null
}
