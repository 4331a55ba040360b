import { describe, expect, it } from 'vitest'
import { everything } from '../../../src/reports/explain/everything.ts'
import { figuresAt } from '../../../src/reports/explain/path.ts'
import type { Envelope } from '../../commands/run.ts'
import { runHere } from '../../faults/in-process.ts'

/** Every report on the invented example, so that its JSON shows each key that there is. */
const LATE = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']
const SUMMER = ['--ledger', 'examples/far-quillet', '--as-of', '2026-07-05']
const REPORTS: readonly (readonly string[])[] = [
  ['check', ...LATE],
  ['today', ...LATE],
  ['today', ...SUMMER],
  ['totals', ...LATE],
  ['heat', ...LATE],
  ['pressure', ...LATE],
  ['cover', ...LATE],
  ['scouting', ...LATE],
  ['ripeness', ...LATE],
  ['window', '--backtest', ...LATE],
  ['crop', ...LATE],
  ['harvest', ...LATE],
  ['sheet', 'scouting', ...LATE],
  ['sheet', 'sampling', ...LATE],
  ['sheet', 'crop', ...LATE],
  ['ready', '--all', ...LATE],
  ['season', ...LATE],
  ['diary', '--form', 'full', ...LATE],
  ['compare', '2025', '2026', ...LATE],
  ['label', ...LATE],
  ['calendar', '--past', ...LATE],
  ['note', 'spray', '--like', 'last', '--dry-run', ...LATE],
  [
    'mix',
    '--block',
    'top-terrace',
    '--product',
    'sulphur-80=1 L/ha',
    '--water',
    '300 L/ha',
    '--sprayer',
    'mounted',
    ...LATE,
  ],
  [
    'calibrate',
    '--nozzle',
    '1.3 L/min',
    '--nozzle',
    '1.2 L/min',
    '--speed',
    '5 km/h',
    '--width',
    '2.2 m',
    '--wanted',
    '300 L/ha',
  ],
  ['sugar', '--brix', '21.5', '--ph', '3.2', '--ta', '8.5 g/L'],
]

/** Keys that only name what a figure is of, or say it in words; a number under them is a figure all the same. */
const NAMES = new Set(
  'block blocks blockName name product productName active group disease organ target date title unit source why missing note kind form file key method authority what where gate variety'.split(
    ' ',
  ),
)
/** Numbers that name something. */
const NUMBER_NAMES = new Set(['season', 'line'])

async function answerOf(args: readonly string[]): Promise<Envelope> {
  return JSON.parse((await runHere([...args, '--json'], process.cwd())).out)
}

/** The keys of a report's data that hold something computed; pictures repeat figures that stand beside them. */
function figuresOf(value: unknown, path: string, found: Set<string>): void {
  const key = path.split('.').at(-1)!
  if (/(?:^|[a-z])charts?$/i.test(key)) return
  if (Array.isArray(value)) {
    for (const one of value) figuresOf(one, path, found)
  } else if (value !== null && typeof value === 'object') {
    if ('unit' in value && ('value' in value || 'low' in value)) found.add(path)
    else for (const [inner, one] of Object.entries(value)) figuresOf(one, `${path}.${inner}`, found)
  } else if (typeof value === 'number' ? !NUMBER_NAMES.has(key) : !NAMES.has(key)) found.add(path)
}

describe('the registry', () => {
  it.each(REPORTS.map((args) => [args.slice(0, 2).join(' '), args] as const))(
    'explains every figure that %s gives',
    async (_, args) => {
      const json = await answerOf(args)
      const found = new Set<string>()
      figuresOf(json.data, json.report, found)
      expect(found.size).toBeGreaterThan(3)
      expect([...found].filter((path) => figuresAt(path).length === 0)).toEqual([])
    },
  )

  it('explains what import and changes give', () => {
    const keys = [
      'import.entries.lines',
      'import.unused',
      'changes.added.daysAfter',
      'changes.effects.figures',
    ]
    expect(keys.filter((path) => figuresAt(path).length === 0)).toEqual([])
  })

  it('does not explain a key that no report has', () => {
    expect(figuresAt('totals.blocks.nothing')).toEqual([])
    expect(figuresAt('window.nothing')).toEqual([])
  })

  it('explains every finding that check and the reports of the example raise', async () => {
    const known = new Set(everything().map(({ name }) => name))
    const answers = [await answerOf(['check', ...LATE]), await answerOf(['check', ...SUMMER])]
    const raised = answers.flatMap(({ findings }) => findings)
    expect(raised.length).toBeGreaterThan(3)
    expect(raised.filter(({ name }) => !known.has(name))).toEqual([])
  })
})
