import { wrap } from '../../render/text.ts'
import { askQuestion, type Part, type Question, type Screen } from './question.ts'

const HELP = 'Enter takes what is in brackets. ? explains, < goes back, Ctrl-C stops and keeps your answers.'

/** What the answers so far say, by the key of their question. */
export type Answers = ReadonlyMap<string, readonly Part[]>

/**
 * Asks one question after the other, each checked as it is answered. `<` goes back to the question before, keeping
 * its answer; leaving keeps all answers too.
 * @param questionsOf the questions as they stand after the answers so far
 * @returns the answers, and each as it was typed
 */
export async function askAll(
  questionsOf: (answers: Answers) => readonly Question[],
  screen: Screen,
): Promise<{ answers: Answers; texts: ReadonlyMap<string, string>; left: boolean }> {
  const answers = new Map<string, readonly Part[]>()
  const texts = new Map<string, string>()
  if (!screen.isUsed) screen.say(`${wrap(HELP, screen.columns)}\n`)
  screen.isUsed = true
  let index = 0
  for (;;) {
    const question = questionsOf(answers)[index]
    if (!question) return { answers, texts, left: false }
    const answer = await askQuestion(question, screen, texts.get(question.key))
    if (answer.came === 'back' && index === 0) screen.say('This is the first question.\n')
    else if (answer.came === 'back') index -= 1
    else if (answer.parts) {
      answers.set(question.key, answer.parts)
      texts.set(question.key, answer.text)
      index += 1
    }
    if (answer.came === 'left') return { answers, texts, left: true }
  }
}
