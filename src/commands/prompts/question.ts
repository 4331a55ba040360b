import { highest } from '../../agronomy/statistics/extremes.ts'
import { safeLine } from '../../render/safe.ts'
import { wrap } from '../../render/text.ts'
import type { Call } from '../plumbing/call.ts'
import { LineInput } from './line-input.ts'

/** A part of an answer in the form of an option, with its block where the question was about one. */
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
  /** Text to show before the question. */
  shows?: () => string
  /** The choices: the word to type, and the text shown with it. */
  choices?: readonly { word: string; shown: string }[] | undefined
  /** Whether an answer may be left out. */
  optional?: boolean
  /** What Enter alone answers, as it would be typed. */
  preset?: string | undefined
  /** What `none` means here; where left out, `none` skips the question. */
  none?: string | undefined
  read(text: string): Read
}

/** The outcome of a question. Text on the line when the grower left is an answer too, where it can be read. */
type Answer =
  | { came: 'answer' | 'left'; text: string; parts: readonly Part[] }
  | { came: 'back' }
  | { came: 'left'; text?: undefined; parts?: undefined }

/** Words that skip a question: its value stays unknown. */
const LEFT_OUT = /^(?:-|skip|unknown|not measured|not read|n\/a|leave out|leave it out)$/i
/** Words for none: a figure where the question has one for it, else they skip the question. */
const NONE = /^(?:none|no|nothing|nil)$/i

/** The terminal on which questions are asked. */
export interface Screen {
  input: LineInput
  say: (text: string) => void
  columns: number
  /** Whether questions were asked on it already: how to answer is explained only once. */
  isUsed?: boolean
}

/** Asks until the answer is understood; after each that is not, says what to type. */
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

function understood(question: Question, typed: string, preset: string): Read & { text: string } {
  const text = typed === '' ? preset : typed
  const isNone = NONE.test(text)
  if (text !== '' && !LEFT_OUT.test(text) && (!isNone || question.none !== undefined))
    return { ...question.read(isNone ? question.none! : text), text }
  return question.optional
    ? { text: '', parts: [] }
    : { text, fault: 'This is needed. ? explains the question.' }
}

const howToAnswer = ({ optional, choices }: Question) =>
  `${choices ? 'Answer by number, by name, or by a part of the name. ' : ''}${optional ? 'To leave it out, type -.' : ''}`

/**
 * Asks a question for yes or no.
 * @param onEnter the answer of Enter alone
 * @returns true for yes; false for no, or where the grower left
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

/** A numbered list of choices, in two columns where they are many and short. */
function renderChoices(choices: readonly { word: string; shown: string }[], columns: number): string {
  const wide = highest(choices.map(({ word }) => word.length))
  const lines = choices.map(({ word, shown }) => `  ${word.padStart(wide)}  ${safeLine(shown)}`)
  const half = Math.ceil(lines.length / 2)
  const [left, right] = [lines.slice(0, half), lines.slice(half)]
  const width = highest(left.map((line) => line.length)) + 2
  const fits = width + Math.max(0, ...right.map((line) => line.length)) <= columns
  const shown =
    lines.length < 9 || !fits
      ? lines
      : left.map((line, index) => `${line.padEnd(width)}${right[index] ?? ''}`.trimEnd())
  return shown.map((line) => `${line}\n`).join('')
}

/** Opens the terminal for questions. */
export const screenOf = ({ env }: Call): Screen => ({
  input: new LineInput(),
  say: env.err,
  columns: env.columns,
})

/** Asks one question for yes or no and closes the terminal. @returns false also where the grower left */
export async function askOnce(call: Call, ask: string): Promise<boolean> {
  const screen = screenOf(call)
  try {
    return await askYes(ask, screen)
  } finally {
    screen.input.close()
  }
}

const HELP = 'Enter takes what is in brackets. ? explains, < goes back, Ctrl-C stops and keeps your answers.'

/** The answers so far, by the key of their question. */
export type Answers = ReadonlyMap<string, readonly Part[]>

/**
 * Asks the questions in turn and checks each answer at once. `<` goes back one question and keeps its answer. Leaving
 * keeps all answers too.
 * @param questionsOf gives the questions that follow from the answers so far
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
