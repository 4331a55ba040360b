import { existsSync } from 'node:fs'
import { basename, resolve } from 'node:path'
import { writeHook } from '../ledger/git/hook.ts'
import { openRepository } from '../ledger/git/repository.ts'
import { seasonOf } from '../ledger/read/seasons.ts'
import { inMemory } from '../ledger/write/in-memory.ts'
import { exampleFiles, layOut, type Starter, starterFiles } from '../ledger/write/starter-files.ts'
import { isTimeZone, zoneMeant } from '../records/clock.ts'
import { SINGULAR } from '../records/kinds.ts'
import { safeLine } from '../render/safe.ts'
import { wrapCommand } from '../render/text.ts'
import { schemaFiles } from '../reports/schema/report.ts'
import { renderStart } from '../reports/start/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { uninterrupted } from './plumbing/uninterrupted.ts'
import { askStart } from './prompts/ask-start.ts'
import { noteLine, shellLine } from './prompts/note-shown.ts'

export const start: CommandBody = {
  arguments: [{ what: 'folder to make it in' }],
  options: optionsOf([
    ['--name NAME', 'name of the vineyard'],
    ['--latitude DEGREES', 'degrees north; negative in the south'],
    ['--longitude DEGREES', 'degrees east; negative in the west'],
    ['--timezone ZONE', "IANA time zone, else this machine's"],
    ['--example', 'add a folder with one invented example of each record, which is not counted'],
    ['--yes', 'ask nothing'],
    ['--hook', 'let git check the records before each commit, where DIR is in a repository'],
  ]),
  examples: [
    ['rowbook start my-vineyard', 'a new ledger in my-vineyard/, asked for in five questions'],
    ['rowbook start my-vineyard --name "Brook Rows" --latitude 51.2', 'with the site filled in'],
    ['rowbook start my-vineyard --example', 'with examples to copy from'],
    ['rowbook start my-vineyard --hook', 'with a check before each commit; also for an existing ledger'],
  ],
  async run(call) {
    const folder = call.args[0]!
    const path = resolve(call.env.cwd, folder)
    if (call.flag('hook') && existsSync(resolve(path, 'vineyard.yaml'))) return hook(call, folder)
    const known = knownOf(call, path)
    const asOf = call.date('as-of') ?? call.env.today(known.timezone)
    const told = await toldOf(call, known, { asOf, isTaken: existsSync(resolve(path, 'vineyard.yaml')) })
    if (!told) return 1
    refuseUnsound(starterFiles(told.starter), told.starter)
    // The days of examples are invented: those of the north where nobody said.
    const latitude = told.starter.latitude ?? 0
    const examples = call.flag('example')
      ? exampleFiles({ latitude, season: seasonOf({ latitude }, asOf) - 1 })
      : {}
    const files = { ...starterFiles(told.starter), ...told.files, ...examples }
    const forEditors = Object.fromEntries(schemaFiles().map(({ file, text }) => [file, text]))
    uninterrupted(() => layOut(path, { shown: folder, files: { ...files, ...forEditors } }))
    call.env.out(
      renderStart({ folder, files: Object.keys(files), starter: told.starter, columns: call.env.columns }),
    )
    return call.flag('hook') ? hook(call, folder) : 0
  },
}

/** Nothing is written that `check` would find errors in, but a latitude that nobody said. @throws UsageError */
function refuseUnsound(
  files: Readonly<Record<string, string>>,
  { latitude }: Pick<Starter, 'latitude'>,
): void {
  const fault = inMemory(files).findings.find(
    ({ level, name }) => level === 'error' && (latitude !== null || name !== 'missing-key'),
  )
  if (fault)
    throw new UsageError(
      `the name of the vineyard can't stand: ${fault.message}`,
      'give it another: --name "Brook Rows"',
    )
}

/** What options and the machine say of the site. @throws UsageError */
function knownOf(call: Call, path: string): Starter {
  const timezone = call.text('timezone') ?? call.env.zone
  if (!isTimeZone(timezone)) throw new UsageError(`\`${timezone}\` is not a time zone`, zoneMeant(timezone))
  return {
    name: call.text('name') ?? basename(path),
    latitude: call.number('latitude', -90, 90) ?? null,
    longitude: call.number('longitude', -180, 180) ?? null,
    timezone,
    units: call.units() ?? 'metric',
  }
}

/** The same with what a terminal was asked; null where the grower left, who is told how to go on. */
async function toldOf(
  call: Call,
  known: Starter,
  { asOf, isTaken }: { asOf: string; isTaken: boolean },
): Promise<{ starter: Starter; files: Record<string, string> } | null> {
  const { env } = call
  if (isTaken || !call.mayAsk) return { starter: known, files: {} }
  const options = ['name', 'latitude', 'longitude', 'units', 'timezone', 'as-of']
  const typed = new Set(options.filter((option) => call.text(option) !== undefined))
  const style = call.style(known.units)
  const asked = await askStart({ ...known, folder: known.name, asOf, typed }, env, style)
  if (!('left' in asked)) return asked
  const line = ['rowbook', 'start', call.args[0]!, ...(call.flag('example') ? ['--example'] : [])]
  for (const option of options) {
    const text = call.text(option) ?? asked.left.get(option)
    if (text !== undefined) line.push(`--${option}`, text)
  }
  // What was said of a block or a sprayer is no option of `start`: `note` takes it, and `start` need not ask again.
  if (asked.jobs.length > 0) line.push('--yes')
  const common = { ledger: call.args[0]! }
  const notes = asked.jobs.map((job) => noteLine([SINGULAR[job.kind]], job, common))
  env.err(
    `Nothing written. To go on where you left:\n${[shellLine(line), ...notes].map((one) => `${wrapCommand(one, env.columns)}\n`).join('')}`,
  )
  return null
}

/** Writes the hook into the repository that the ledger lies in. */
async function hook(call: Call, folder: string): Promise<number> {
  const repository = await openRepository({
    root: resolve(call.env.cwd, folder),
    variables: call.env.variables,
  })
  const path = await writeHook(repository)
  call.env.out(`Before each commit git now runs \`rowbook check --staged\`: ${safeLine(path)}\n`)
  return 0
}
