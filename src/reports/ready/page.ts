import { windowChart } from '../../facts/charts/span-chart.ts'
import { GATES, isOpen } from '../../facts/picking/gate.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { words } from '../../render/columns.ts'
import { rough } from '../../render/figure.ts'
import { dateCell, nameOf, toned } from '../../render/html/figures.ts'
import { type Content, html, type Markup, section } from '../../render/html/markup.ts'
import type { PageInput, PageOf } from '../../render/html/page.ts'
import { folded, pageTable } from '../../render/html/table.ts'
import { drawSpanChart } from '../../render/svg/span-chart.ts'
import type { ReadyBlock, ReadyData } from './report.ts'
import { adviceText, answerOf, earliestFirst, GATE, orderLine, TONES } from './sentences.ts'
import { detailOf } from './terminal.ts'

const NAMES = {
  ...GATE,
  'before-harvest': 'pre-harvest interval (PHI)',
  're-entry': 're-entry interval (REI)',
} as const

const stateCell = (state: keyof typeof TONES): Markup =>
  toned(state, TONES[state], { unknown: '?', 'not-asked': '-' }[state as string])

type Shown = Pick<PageInput, 'names' | 'units'>

/** The harvest decision: all blocks in a table, then each with what was checked. */
export const page: PageOf<ReadyData> = ({ data }, { names, units, answer }) => {
  const order = orderLine(data, names.blocks)
  const blocks = earliestFirst(data.blocks)
  const windows = windowChart(
    'When each block reaches its target sugar, 9 times in 10',
    blocks.map(({ block, window }) => ({ ...window, name: nameOf(names, block) })),
  )
  return {
    title: 'Ready to pick?',
    answer: blocks.length === 0 ? answer : answerOf(blocks, names.blocks),
    lead: html`${overview(blocks, { names, units })}${order !== '' && html`<p>${order}</p>\n`}${drawSpanChart('ready-windows', windows)}`,
    content: html`${blocks.map((block) => blockPart(block, { names, units }))}`,
  }
}

function overview(blocks: readonly ReadyBlock[], { names, units }: Shown): Content {
  const gates = GATES.filter((gate) => gate !== 'records')
  return pageTable('Every block and what was checked', blocks, [
    words('block', ({ block }) => nameOf(names, block)),
    words('verdict', ({ picked, verdict }) => (picked ? 'picked' : stateCell(verdict))),
    ...gates.map((name) =>
      words(NAMES[name], (block: ReadyBlock) => {
        const found = block.gates.find(({ gate }) => gate === name)!
        return found.estimate ? rough(found.estimate, units) : found.short
      }),
    ),
  ])
}

function blockPart(block: ReadyBlock, { names, units }: Shown): Content {
  const name = nameOf(names, block.block)
  // Nothing that holds the block back is folded.
  const held = block.picked ? [] : block.gates.filter((gate) => !isOpen(gate))
  const legalFrom = held.some(({ gate }) => gate === 'before-harvest') ? null : block.legalFrom
  const notes = [
    ...held.map((gate) => heldText(NAMES[gate.gate], detailOf(gate, units))),
    ...(block.advice ? [adviceText(block.advice)] : []),
    ...block.todo,
    ...block.conflicts,
    ...[block.sulphur, block.rain].flatMap((note) => note ?? []),
  ]
  const days = [
    block.picked && html`Picked on ${dateCell(block.picked.date)}. `,
    legalFrom && html`The pre-harvest interval (PHI) allows picking from ${dateCell(legalFrom)}. `,
    block.turns && html`May be ready on ${dateCell(block.turns)}.`,
  ]
  return section(
    [`${name}: `, block.picked ? 'picked' : stateCell(block.verdict)],
    days.some(Boolean) && html`<p>${days}</p>\n`,
    notes.length > 0 && html`<ul class="plain">${notes.map((note) => html`<li>${note}</li>\n`)}</ul>\n`,
    folded(
      `Everything that was checked in ${name}`,
      pageTable(`${name}: what was checked`, block.gates, [
        words('checked', ({ gate }) => NAMES[gate]),
        words('result', ({ state }) => stateCell(state)),
        words('why', (gate) => detailOf(gate, units)),
      ]),
      { filed: true },
    ),
  )
}

/** `Sugar: no sample this season.`, or `Acid 11.8 g/L ...` where the reason names the check itself. */
const heldText = (check: string, why: string): string =>
  why.startsWith(`${check} `) ? `${upperFirst(why)}.` : `${upperFirst(check)}: ${why}.`
