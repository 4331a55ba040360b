import type { PlainEntry } from '../../ledger/write/entry-text.ts'
import type { DraftInput } from '../../reports/note/draft.ts'
import { fieldsOf } from '../../reports/note/fields.ts'
import { askAll, type Part, type Screen } from './question.ts'
import { type Asking, blocksOf, questionsOf } from './questions.ts'
import { BLOCK_BY_BLOCK, withParts } from './typed-fields.ts'

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
  const isEach =
    parts.some(({ block }) => block !== undefined) || (BLOCK_BY_BLOCK.has(input.kind) && blocks.length > 1)
  const isNamed = asking.answers.has('block') || input.blocks.length > 0
  if (!isEach) return [{ typed: optionsOf(input, parts), blocks: isNamed ? blocks : [] }]
  return blocks.map((id) => {
    const own = parts.filter(({ block }) => block === undefined || block === id)
    return { typed: optionsOf(input, own), blocks: [id] }
  })
}

function optionsOf({ typed, ledger }: DraftInput, parts: readonly Part[]): Map<string, readonly string[]> {
  // The product in `sulphur-80=3 kg/ha`; one without a dose was only chosen.
  const doses = parts.filter(({ option, text }) => option === 'product' && text.includes('='))
  const dosed = new Set(doses.map(({ text }) => text.slice(0, text.indexOf('='))))
  const kept = parts.filter(
    ({ option, text }) =>
      option !== 'block' && option !== 'week' && !(option === 'product' && dosed.has(text)),
  )
  // Where a label names one target only, the product was used against that one.
  const targets = [...(typed.has('for') || typed.has('product') ? [] : dosed)].flatMap((id) => {
    const [target, ...others] = new Set(ledger.products.get(id)?.uses.map((use) => use.against))
    return target === undefined || others.length > 0 ? [] : [{ option: 'for', text: `${id}=${target}` }]
  })
  return withParts(typed, [...kept, ...targets])
}
