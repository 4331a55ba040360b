import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import type { DraftInput } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { askAll, type Part, type Screen } from './question.ts'
import { type Asking, blocksOf, questionsOf } from './questions.ts'
import { BLOCK_BY_BLOCK } from './typed-fields.ts'

/** The answers in the form of options: once, or once for each block that was asked about. */
interface Answered {
  jobs: { typed: Map<string, readonly string[]>; blocks: readonly string[] }[]
  /** Whether the grower left before the last question. */
  left: boolean
}

/**
 * Asks for what was not typed.
 * @param like the earlier entry that `--like` names; fields that it has are not asked.
 */
export async function askEntry(
  input: DraftInput & Pick<Asking, 'part'>,
  like: PlainEntry | null,
  screen: Screen,
): Promise<Answered> {
  const given = new Set([...input.typed.keys(), ...(input.blocks.length > 0 ? ['block'] : [])])
  for (const field of fieldsOf(input.kind)) if (like?.[field.path[0]!] !== undefined) given.add(field.option)
  if (input.ledger.blocks.size === 1) given.add('block')
  if (input.ledger.sprayers.size < 2) given.add('sprayer')
  const asking = { ...input, given, like }
  const { answers, left } = await askAll((so) => questionsOf({ ...asking, answers: so }), screen)
  return { jobs: composed(input, { ...asking, answers }), left }
}

/** The answers that still count, as options: those to the common questions, with those for each block. */
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
    if (option === 'block' || option === 'week' || (option === 'product' && dosed.has(text))) continue
    add(option, text)
  }
  // Where a label names one target only, the product was used against that one.
  for (const id of typed.has('for') || typed.has('product') ? [] : dosed) {
    const targets = new Set(ledger.products.get(id)?.uses.map((use) => use.against))
    if (targets.size === 1) add('for', `${id}=${[...targets][0]}`)
  }
  return all
}

/** The product in `sulphur-80=3 kg/ha`; none where no dose was given yet. */
const productOf = (text: string) => (text.includes('=') ? [text.slice(0, text.indexOf('='))] : [])
