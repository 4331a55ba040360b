import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import { wrap } from '../../render/text.ts'
import type { DraftInput } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { BLOCK_BY_BLOCK } from './block-by-block.ts'
import type { LineInput } from './line-input.ts'
import { askQuestion, askYes, type Part } from './question.ts'
import { type Asking, blocksOf, questionsOf } from './questions.ts'

/** A terminal that questions are asked on. */
export interface Screen {
  input: LineInput
  say: (text: string) => void
  columns: number
}

/** What the questions gave, in the form of options: once, or once for each block that was asked about. */
interface Answered {
  jobs: { typed: Map<string, readonly string[]>; blocks: readonly string[] }[]
  /** Whether the grower left before the last question. */
  left: boolean
}

/**
 * Asks for what was not typed, one question after the other, each checked as it is answered. `<` goes back to
 * the question before, keeping its answer; leaving keeps all answers too.
 * @param like what is known already of an entry like it; its fields are not asked.
 */
export async function askEntry(
  input: DraftInput,
  like: PlainEntry | null,
  screen: Screen,
): Promise<Answered> {
  const given = new Set([...input.typed.keys(), ...(input.blocks.length > 0 ? ['block'] : [])])
  for (const field of fieldsOf(input.kind)) if (like?.[field.path[0]!] !== undefined) given.add(field.option)
  if (input.ledger.blocks.size === 1) given.add('block')
  if (input.ledger.sprayers.size < 2) given.add('sprayer')
  const answers = new Map<string, readonly Part[]>()
  const texts = new Map<string, string>()
  const asking: Asking = { ...input, given, answers, like }
  const help =
    'Enter takes what is in brackets. ? explains, < goes back, Ctrl-C stops and keeps your answers.'
  screen.say(`${wrap(help, screen.columns)}\n`)
  let index = 0
  let left = false
  while (!left) {
    const question = questionsOf(asking)[index]
    if (!question) break
    const answer = await askQuestion(question, screen, texts.get(question.key))
    left = answer.came === 'left'
    if (answer.came === 'back') index = Math.max(0, index - 1)
    else if (answer.parts) {
      answers.set(question.key, answer.parts)
      texts.set(question.key, answer.text)
      index += 1
    }
  }
  return { jobs: composed(input, asking), left }
}

/** Asks on a terminal whether to write, where nothing else was asked. */
export async function askToWrite(isDoubtful: boolean): Promise<boolean> {
  const { LineInput } = await import('./line-input.ts')
  const { tell } = await import('../plumbing/env.ts')
  const input = new LineInput()
  try {
    return await askWhetherToWrite(isDoubtful, { input, say: tell, columns: process.stderr.columns ?? 80 })
  } finally {
    input.close()
  }
}

export const askWhetherToWrite = (isDoubtful: boolean, screen: Screen): Promise<boolean> =>
  askYes(isDoubtful ? 'Write it despite the warnings?' : 'Write it?', screen)

/** The answers that still count, as options: those of the common questions, with those of each block. */
function composed(input: DraftInput, asking: Asking): Answered['jobs'] {
  const parts = questionsOf(asking).flatMap(({ key }) => asking.answers.get(key) ?? [])
  const blocks = blocksOf(asking)
  const ofBlocks =
    parts.some(({ block }) => block !== undefined) || (BLOCK_BY_BLOCK.has(input.kind) && blocks.length > 1)
  const named = asking.answers.has('block') || input.blocks.length > 0 ? blocks : []
  if (!ofBlocks) return [{ typed: optionsOf(input, parts), blocks: named }]
  return blocks.map((id) => ({
    typed: optionsOf(
      input,
      parts.filter(({ block }) => block === undefined || block === id),
    ),
    blocks: [id],
  }))
}

function optionsOf({ typed, ledger }: DraftInput, parts: readonly Part[]): Map<string, readonly string[]> {
  const all = new Map(typed)
  const add = (option: string, text: string) => all.set(option, [...(all.get(option) ?? []), text])
  const dosed = new Set(
    parts.filter(({ option }) => option === 'product').flatMap(({ text }) => productOf(text)),
  )
  for (const { option, text } of parts) {
    if (option === 'block' || (option === 'product' && dosed.has(text))) continue
    add(option, text)
  }
  // A product whose label names one target is against that one.
  for (const id of typed.has('for') || typed.has('product') ? [] : dosed) {
    const targets = new Set(ledger.products.get(id)?.uses.map((use) => use.against))
    if (targets.size === 1) add('for', `${id}=${[...targets][0]}`)
  }
  return all
}

/** The product of `sulphur-80=3 kg/ha`; none where no dose was given yet. */
const productOf = (text: string) => (text.includes('=') ? [text.slice(0, text.indexOf('='))] : [])
