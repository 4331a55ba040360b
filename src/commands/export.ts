import { FIRST_YEAR, LAST_YEAR } from '../records/date.ts'
import { SEASON_KINDS, STANDING_KINDS } from '../records/kind-names.ts'
import type { Format } from '../reports/export/csv.ts'
import { Call } from './plumbing/call.ts'
import { type Command, type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import type { LedgerFolder, Sink, Wanted } from './plumbing/export-many.ts'

const REPORTS: ReadonlySet<string> = new Set([
  'totals', 'heat', 'pressure', 'cover', 'scouting', 'ripeness', 'window', 'crop', 'harvest', 'ready', 'diary', 'label', 'changes', 'compare',
]) // biome-ignore format: a list of words reads better in few lines

/** The names of the record tables, listed here so that nothing has to be loaded. */
const TABLE_NAMES = ['vineyards', ...STANDING_KINDS, 'actives', 'applications', ...SEASON_KINDS]

/** @param table every command, asked for only when a report is exported. */
export const exportCommand = (table: () => Promise<readonly Command[]>): CommandBody => ({
  arguments: [
    {
      what: 'a kind of record or a report, like sprays, totals or totals.blocks.actives',
      choices: [...TABLE_NAMES, ...REPORTS],
    },
  ],
  options: optionsOf([
    ['--format FORMAT', 'csv or jsonl, else csv', { choices: ['csv', 'jsonl'] }],
    ['--to FOLDER', 'write one file for each kind of record into this folder'],
    ['--ledger DIR...', 'a ledger; give it several times for several'],
    ['--ledgers FOLDER', 'every ledger right inside this folder'],
  ]),
  examples: [
    ['rowbook export sprays > sprays.csv', 'one kind of record'],
    ['rowbook export totals.blocks.actives --format jsonl', 'a table of a report'],
    ['rowbook export --ledgers members --to tables', 'every kind of record of many ledgers'],
  ],
  async run(call) {
    if (call.json)
      throw new UsageError('a table is no JSON report', 'write --format jsonl: one JSON object for each row')
    const { TABLES } = await import('../reports/export/tables.ts')
    const what = call.args[0]
    const format = (call.text('format') ?? 'csv') as Format
    if (what !== undefined && !TABLES.has(what)) return exportReport(call, await table(), { what, format })
    const to = call.text('to')
    if (what === undefined && to === undefined)
      throw new UsageError(
        'say what to export, or where to put it all',
        `\`rowbook export sprays\` prints one; \`rowbook export --to FOLDER\` writes ${[...TABLES.keys()].join(', ')}`,
      )
    const { filesIn, unmet, writeTables } = await import('./plumbing/export-many.ts')
    const ledgers = await ledgersOf(call)
    const wanted = await wantedOf(call, ledgers)
    const tables = what === undefined ? [...TABLES.values()] : [TABLES.get(what)!]
    const lacking = what === undefined ? null : unmet(tables[0]!, wanted)
    if (lacking)
      throw new UsageError(`the table ${what} has nothing that ${lacking} could choose by`, 'leave it out')
    const work = (sink: Sink) => writeTables(ledgers, { tables, sink, format, wanted })
    const leftOut =
      to === undefined
        ? work((_, text) => call.env.out(text))
        : filesIn({ cwd: call.env.cwd, folder: to, tables, format }, work)
    const { safeLine } = await import('../render/safe.ts')
    for (const { name, why } of leftOut) call.env.err(`left out: ${safeLine(name)}: ${safeLine(why)}\n`)
    if (to !== undefined)
      call.env.err(`${ledgers.length - leftOut.length} of ${ledgers.length} ledgers in ${safeLine(to)}\n`)
    return leftOut.length > 0 ? 1 : 0
  },
})

/** Which rows of a record table are wanted. @throws UsageError where no ledger has such a block. */
async function wantedOf(call: Call, ledgers: readonly LedgerFolder[]): Promise<Wanted> {
  const { filesOnDisk } = await import('../ledger/read/files.ts')
  const typed = new Set(call.texts('block').flatMap((text) => text.split(',')))
  const isThere = (id: string) => ledgers.some(({ root }) => filesOnDisk(root).has(`blocks/${id}.yaml`))
  const unknown = typed.has('all')
    ? undefined
    : [...typed].find((id) => !/^[a-z0-9-]+$/.test(id) || !isThere(id))
  if (unknown !== undefined)
    throw new UsageError(`there is no block \`${unknown}\``, '`rowbook export blocks` lists their ids')
  return {
    season: call.number('season', FIRST_YEAR, LAST_YEAR),
    asOf: await call.date('as-of'),
    blocks: typed.size === 0 || typed.has('all') ? undefined : typed,
  }
}

async function ledgersOf(call: Call) {
  const { ledgersIn, ledgersNamed } = await import('./plumbing/export-many.ts')
  const folder = call.text('ledgers')
  const named = call.texts('ledger')
  if (folder !== undefined && named.length > 0)
    throw new UsageError('--ledger and --ledgers both say which', 'give one of them')
  if (folder !== undefined) return ledgersIn(call.env.cwd, folder)
  if (named.length > 0) return ledgersNamed(call.env.cwd, named)
  const { findLedger } = await import('../ledger/read/find.ts')
  return ledgersNamed(call.env.cwd, [findLedger(call.env.cwd)])
}

/** A report's JSON, split into tables; returns its exit status. */
async function exportReport(
  call: Call,
  commands: readonly Command[],
  { what, format }: { what: string; format: Format },
): Promise<number> {
  const [name, ...rest] = what.split('.')
  const { TABLES } = await import('../reports/export/tables.ts')
  const command = commands.find((one) => one.name === name && REPORTS.has(one.name))
  if (!command)
    throw new UsageError(
      `there is no table or report \`${what}\``,
      `tables: ${[...TABLES.keys()].join(', ')}; reports: ${[...REPORTS].join(', ')}`,
    )
  if (call.text('ledgers') !== undefined || call.texts('ledger').length > 1)
    throw new UsageError('a report is of one ledger', 'name one with --ledger')
  let answer = ''
  const values = { ...call.values, json: true, ledger: call.texts('ledger')[0] }
  const env = Object.create(call.env, { out: { value: (text: string) => (answer += text) } }) as Call['env']
  const status = await command.run(new Call(command.name, [], values, env))
  const { tablesIn } = await import('../reports/export/flatten.ts')
  const { data, cautions } = JSON.parse(answer) as { data: unknown; cautions: string[] }
  const tables = tablesIn(data)
  const path = rest.join('.')
  const table = path === '' ? tables[0] : tables.find((one) => one.path === path)
  if (!table)
    throw new UsageError(
      `\`${name}\` has no table \`${path}\` with rows`,
      `it has: ${tables.map((one) => `${name}.${one.path}`).join(', ') || 'none'}`,
    )
  const { headLine, rowLine } = await import('../reports/export/csv.ts')
  // The file may be passed on alone, so every row carries the cautions of its report.
  const columns = cautions.length > 0 ? [...table.columns, 'caution'] : table.columns
  const last = cautions.length > 0 ? [cautions.join(' ')] : []
  call.env.out(headLine(columns, format))
  for (const row of table.rows) {
    const values = table.columns.map((column) => row[column] ?? null)
    call.env.out(rowLine(columns, [...values, ...last], format))
  }
  return status
}
