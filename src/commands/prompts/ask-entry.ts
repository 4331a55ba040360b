import { confirm, isCancel, multiselect, select, text } from '@clack/prompts'
import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import type { DraftInput } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { carried, likeEntries } from '../../reports/note/like.ts'
import { type Asking, type Question, questionsOf } from './questions.ts'

const BACK = '<'
const NOTHING = '-'

/** What the questions gave, in the form of options. */
interface Answered {
  typed: Map<string, readonly string[]>
  blocks: readonly string[]
  /** Whether the grower left before the last question. */
  left: boolean
}

/**
 * Asks for what was not typed, one question after the other, each checked as it is answered. `<` goes back to
 * the question before, keeping its answer; leaving keeps all answers too.
 * @param entry what is known already of an entry like it; its fields are not asked.
 */
export async function askEntry(input: DraftInput, entry: PlainEntry | null): Promise<Answered> {
  const given = new Set([...input.typed.keys(), ...(input.blocks.length > 0 ? ['block'] : [])])
  for (const field of fieldsOf(input.kind)) if (entry?.[field.path[0]!] !== undefined) given.add(field.option)
  if (input.ledger.blocks.size === 1) given.add('block')
  if (input.ledger.sprayers.size < 2) given.add('sprayer')
  const newest = likeEntries(input.ledger, input.kind, input).at(-1)
  const answers = new Map<string, readonly string[]>()
  const asking: Asking = { ...input, given, answers, newest: newest ? carried(input.kind, newest) : {} }
  process.stderr.write(
    'Enter takes what is shown grey, or leaves it out; - leaves it out; < goes back; Ctrl-C leaves.\n',
  )
  let index = 0
  for (;;) {
    const question = questionsOf(asking)[index]
    if (!question) return { ...composed(input, answers), left: false }
    const answer = await ask(question, answers.get(question.key))
    if (answer === null) return { ...composed(input, answers), left: true }
    if (answer === BACK) index = Math.max(0, index - 1)
    else {
      answers.set(question.key, answer)
      index += 1
    }
  }
}

/** Asks whether to write; one key, `y` or `n`, is an answer. */
export async function askToWrite(doubtful: boolean): Promise<boolean> {
  const answer = await confirm({
    message: doubtful ? 'Write it in spite of the warnings?' : 'Write it?',
    initialValue: true,
    output: process.stderr,
  })
  return answer === true
}

async function ask(
  question: Question,
  before: readonly string[] | undefined,
): Promise<readonly string[] | '<' | null> {
  const preset = before ?? question.preset
  if (question.choices) return choose(question, question.choices, preset)
  const shown = preset.join(', ')
  const answer = await text({
    message: question.message,
    output: process.stderr,
    ...(shown ? { placeholder: shown, defaultValue: shown } : {}),
    validate: (value) => {
      const typed = value?.trim() ?? ''
      if (typed === BACK || (typed === '' && shown !== '')) return undefined
      if (typed === '' || typed === NOTHING) return question.required ? 'this is needed' : undefined
      return question.fault(typed)
    },
  })
  if (isCancel(answer)) return null
  const typed = (answer ?? '').trim()
  if (typed === BACK) return BACK
  return typed === '' || typed === NOTHING ? [] : [typed]
}

async function choose(
  { message, several, required }: Question,
  choices: readonly { value: string; label: string }[],
  preset: readonly string[],
): Promise<readonly string[] | '<' | null> {
  const back = { value: BACK, label: 'back to the question before' }
  const output = process.stderr
  const known = preset.filter((value) => choices.some((choice) => choice.value === value))
  if (several) {
    const options = [...choices, back]
    const answer = await multiselect({
      message: `${message} (space marks, Enter ends)`,
      options,
      required,
      output,
      showInstructions: false,
      initialValues: known.length === 0 && choices.length === 1 ? [choices[0]!.value] : known,
      ...(known[0] ? { cursorAt: known[0] } : {}),
    })
    if (isCancel(answer)) return null
    return answer.includes(BACK) ? BACK : answer
  }
  const none = required ? [] : [{ value: NOTHING, label: 'leave it out' }]
  const answer = await select({
    message,
    options: [...choices, ...none, back],
    output,
    showInstructions: false,
    ...(known[0] ? { initialValue: known[0] } : {}),
  })
  if (isCancel(answer)) return null
  return answer === BACK ? BACK : answer === NOTHING ? [] : [answer]
}

function composed({ typed, blocks, ledger }: DraftInput, answers: ReadonlyMap<string, readonly string[]>) {
  const all = new Map(typed)
  for (const [key, texts] of answers) {
    if (texts.length === 0 || key === 'block' || key === 'product' || key.startsWith('dose:')) continue
    if (key.startsWith('for:'))
      all.set('for', [...(all.get('for') ?? []), ...texts.map((text) => `${key.slice(4)}=${text}`)])
    else all.set(key, texts)
  }
  const products = (answers.get('product') ?? []).map((id) => {
    const dose = answers.get(`dose:${id}`)?.[0]
    return dose === undefined ? id : `${id}=${dose}`
  })
  if (products.length > 0) all.set('product', products)
  const only = (answers.get('product') ?? []).flatMap((id) => {
    const targets = new Set(ledger.products.get(id)?.uses.map((use) => use.against))
    return targets.size === 1 && !typed.has('for') ? [`${id}=${[...targets][0]}`] : []
  })
  if (only.length > 0) all.set('for', [...(all.get('for') ?? []), ...only])
  return { typed: all, blocks: answers.get('block') ?? blocks }
}
