import { renderShed } from '../reports/mix/terminal-shed.ts'
import { sheet as report } from '../reports/sheet/report.ts'
import { renderSheet } from '../reports/sheet/terminal.ts'
import { mix, mixed } from './mix.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, type OptionSpec, optionName, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

const KINDS = ['scouting', 'sampling', 'crop', 'spray'] as const
const DRAWN = ['scouting', 'sampling', 'crop'] as const
const ORGANS = ['bunches', 'leaves', 'shoots', 'vines'] as const

const OWN = optionsOf([
  ['--seed WORD', 'draws the same random vines again, else the date', { of: DRAWN }],
  [
    '--precision NUMBER',
    'how exactly, within ±: % for scouting (5), Brix for sampling (0.5), % for crop (10)',
    { of: DRAWN },
  ],
  [
    '--vines NUMBER',
    'vines to go to in each block; for sampling, for each bag; for a spray, vines treated',
    { of: DRAWN },
  ],
  ['--organ NAME...', 'what to look at, else bunches and leaves', { choices: ORGANS, of: ['scouting'] }],
])

const names = (options: readonly OptionSpec[]) => new Set(options.map(optionName))

/** What `mix` takes, for its fill sheet. */
const FILL = mix.options!.filter((option) => optionName(option) !== 'shed')

/** All of them; one that both have is described once. */
const OPTIONS = [
  ...OWN.map((option) => (names(FILL).has(optionName(option)) ? { ...option, of: KINDS } : option)),
  ...FILL.filter((option) => !names(OWN).has(optionName(option))).map((one) => ({ ...one, of: ['spray'] })),
]

export const sheet: CommandBody = {
  arguments: [{ what: KINDS.join(', '), choices: KINDS }],
  options: OPTIONS,
  html: true,
  examples: [
    ['rowbook sheet scouting --html round.html', 'print it from the browser'],
    ['rowbook sheet sampling --block top-terrace', 'one block, as plain text'],
    ['rowbook sheet crop --precision 15 --seed lag', 'the same vines again for the same seed'],
    [
      'rowbook sheet spray --block top-terrace --product sulphur-80=3kg/ha --sprayer mounted',
      'what to fill in',
    ],
  ],
  async run(call) {
    const kind = KINDS.find((one) => one === call.args[0])
    if (!kind)
      throw new UsageError(`there is no sheet \`${call.args[0]}\``, `write one of ${KINDS.join(', ')}`)
    if (kind === 'spray') return fillSheet(call)
    refuse(call, kind)
    const typed = {
      kind,
      seed: seedOf(call),
      precision: call.number('precision', ...PRECISION[kind]),
      vines: call.whole('vines', 1, 1000),
      organs:
        call.texts('organ').length > 0
          ? ORGANS.filter((one) => call.texts('organ').includes(one))
          : undefined,
    }
    const input = call.open({ kinds: READS, history: READS })
    return call.print(report(input, { ...typed, seed: typed.seed ?? input.asOf }), renderSheet, {
      page: () => import('../reports/sheet/page.ts'),
    })
  },
}

const READS = ['scouting', 'samples', 'crop', 'sprays', 'stages', 'picks'] as const

/** Finer ones take more vines than any vineyard has. */
const PRECISION = { scouting: [1, 40], sampling: [0.1, 5], crop: [1, 100] } as const

/** The fill sheet of a mix; over the label there is none, only the error. */
async function fillSheet(call: Call): Promise<number> {
  refuse(call, 'spray')
  const { report, failed } = mixed(call)
  const style = call.style()
  const status = failed ? 1 : 0
  const file = call.text('html')
  if (report.data.overLabel.length > 0 && file !== undefined && !call.json) {
    call.env.err(renderShed(report, style))
    return status
  }
  return call.print({ ...report, report: 'sheet' }, () => renderShed(report, style), {
    page: () => import('../reports/mix/page.ts'),
    status,
  })
}

/** Refuses an option of another kind of sheet. */
function refuse(call: Call, kind: (typeof KINDS)[number]): void {
  const wrong = OPTIONS.filter(({ of }) => of && !(of as readonly string[]).includes(kind))
    .map(optionName)
    .find((word) => call.texts(word).length > 0 || call.flag(word))
  if (wrong) throw new UsageError(`--${wrong} is not for a ${kind} sheet`, 'leave it out')
}

/** A seed is part of a command that is printed on the sheet, so that it must need no quoting. */
function seedOf(call: Call): string | undefined {
  const seed = call.text('seed')
  if (seed !== undefined && !/^[\w-]{1,40}$/.test(seed))
    throw new UsageError('--seed takes up to 40 letters, digits and hyphens', 'write it like --seed july-1')
  return seed
}
