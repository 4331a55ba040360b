import { wrap } from '../../render/text.ts'
import type { LineInput } from './line-input.ts'
import { renderChoices } from './shown-choices.ts'

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
  required: boolean
  /** What Enter takes, as it would be typed; empty where there is none. */
  preset: string
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
  const preset = before ?? question.preset
  const bracket = preset !== '' ? ` [${preset}]` : question.required ? '' : ' [leave out]'
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
    if (question.required) return { fault: 'This is needed. ? explains the question.' }
    return { text: '', parts: [] }
  }
  const said = isNone ? question.none! : text
  const read = question.read(said)
  return read.fault === undefined ? { text, parts: read.parts } : read
}

const howToAnswer = ({ required, choices }: Question) =>
  `${choices ? 'Answer by number, by name, or by a part of the name. ' : ''}${required ? '' : 'To leave it out, type -.'}`

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
