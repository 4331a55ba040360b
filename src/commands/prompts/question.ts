import { highest } from '../../agronomy/statistics/extremes.ts'
import { safeLine } from '../../render/safe.ts'
import { wrap } from '../../render/text.ts'
import type { Call } from '../plumbing/call.ts'
import { LineInput } from './line-input.ts'

/** A part of an answer, as an option would take it; of one block where what is asked is. */
export interface Part {
  option: string
  text: string
  block?: string
}

/** The result of reading an answer. */
export type Read = { parts: readonly Part[]; fault?: undefined } | { parts?: undefined; fault: string }

/** A question for the user. */
export interface Question {
  key: string
  /** In one sentence, with its example: `How much water? For example 300 L/ha.` */
  ask: string
  /** What `?` prints. */
  why: string
  /** What is shown before it is asked. */
  shows?: () => string
  /** The choices: the word to type, and the text shown with it. */
  choices?: readonly { word: string; shown: string }[]
  /** Whether it may be left out. */
  optional?: boolean
  /** What Enter takes, as it would be typed. */
  preset?: string | undefined
  /** What `none` means here; where left out, that the question is passed over. */
  none?: string
  read(text: string): Read
}

/** What came of a question. A text that was typed when the grower left is an answer where it can be read. */
type Answer =
  | { came: 'answer' | 'left'; text: string; parts: readonly Part[] }
  | { came: 'back' }
  | { came: 'left'; text?: undefined; parts?: undefined }

/** Words that leave a question out: what they are about stays unknown. */
const LEFT_OUT = /^(?:-|skip|unknown|not measured|not read|n\/a|leave out|leave it out)$/i
/** Words for none of it, which is a figure where the question says so, and else leaves it out. */
const NONE = /^(?:none|no|nothing|nil)$/i

/** A terminal that questions are asked on. */
export interface Screen {
  input: LineInput
  say: (text: string) => void
  columns: number
  /** Whether questions were asked on it, so that how to answer need not be said again. */
  isUsed?: boolean
}

/** Asks until the answer is understood, each time saying what to type. */
export async function askQuestion(question: Question, screen: Screen, before?: string): Promise<Answer> {
  const { say, columns, input } = screen
  const preset = before ?? question.preset ?? ''
  const bracket = preset !== '' ? ` [${preset}]` : question.optional ? ' [leave out]' : ''
  const tell = (text: string) => say(`${wrap(text, columns)}\n`)
  say('\n')
  if (question.shows) say(`${question.shows()}\n`)
  if (question.choices) say(renderChoices(question.choices, columns))
  for (;;) {
    tell(question.ask + bracket)
    const line = await input.next()
    const answer = understood(question, line.text, preset)
    if (line.left) return answer.parts ? { came: 'left', ...answer, text: line.text } : { came: 'left' }
    if (line.text === '<') return { came: 'back' }
    if (line.text === '?') tell(`${question.why} ${howToAnswer(question)}`.trim())
    else if (answer.fault !== undefined) tell(answer.fault)
    else return { came: 'answer', text: answer.text, parts: answer.parts }
  }
}

function understood(
  question: Question,
  typed: string,
  preset: string,
): { text: string; parts: readonly Part[]; fault?: undefined } | { parts?: undefined; fault: string } {
  const text = typed === '' ? preset : typed
  const isNone = NONE.test(text)
  if (text === '' || LEFT_OUT.test(text) || (isNone && question.none === undefined)) {
    if (!question.optional) return { fault: 'This is needed. ? explains the question.' }
    return { text: '', parts: [] }
  }
  const said = isNone ? question.none! : text
  const read = question.read(said)
  return read.fault === undefined ? { text, parts: read.parts } : read
}

const howToAnswer = ({ optional, choices }: Question) =>
  `${choices ? 'Answer by number, by name, or by a part of the name. ' : ''}${optional ? 'To leave it out, type -.' : ''}`

/**
 * Asks whether to do it.
 * @param onEnter what Enter alone says
 * @returns false also where the grower left
 */
export async function askYes(ask: string, screen: Screen, onEnter: 'y' | 'n' = 'y'): Promise<boolean> {
  for (;;) {
    screen.say(`${wrap(`${ask} Type y or n. [${onEnter}]`, screen.columns)}\n`)
    const line = await screen.input.next({ skipBlank: true })
    if (line.left) return false
    const answer = line.text === '' ? onEnter : line.text
    if (/^(?:y|yes|ok)$/i.test(answer)) return true
    if (/^(?:n|no|-)$/i.test(answer)) return false
    screen.say('Type y for yes or n for no.\n')
  }
}

/** Things to choose from, numbered, in two columns where they are many and short. */
function renderChoices(choices: readonly { word: string; shown: string }[], columns: number): string {
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

/** The terminal, for questions. */
export const screenOf = ({ env }: Call): Screen => ({
  input: new LineInput(),
  say: env.err,
  columns: env.columns,
})

/** Asks whether to do it, where nothing else is asked. @returns false also where the grower left */
export async function askOnce(call: Call, ask: string): Promise<boolean> {
  const screen = screenOf(call)
  try {
    return await askYes(ask, screen)
  } finally {
    screen.input.close()
  }
}

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
