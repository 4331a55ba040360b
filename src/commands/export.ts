import { filesOnDisk } from '../ledger/read/files.ts'
import { findLedger } from '../ledger/read/find.ts'
import { FIRST_YEAR, LAST_YEAR } from '../records/date.ts'
import { SEASON_KINDS, STANDING_KINDS } from '../records/kind-names.ts'
import { safeLine } from '../render/safe.ts'
import { type Format, headLine, rowLine } from '../reports/export/csv.ts'
import { tablesIn } from '../reports/export/flatten.ts'
import { TABLES } from '../reports/export/tables.ts'
import {
  columnOf,
  type Filter,
  filesIn,
  type LedgerFolder,
  ledgersIn,
  ledgersNamed,
  type Sink,
  writeTables,
} from './export/ledgers.ts'
import { Call } from './plumbing/call.ts'
import { type CommandBody, type Commands, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

const REPORTS = [
  'totals', 'heat', 'pressure', 'cover', 'scouting', 'ripeness', 'window', 'crop', 'harvest', 'ready', 'diary', 'label', 'changes', 'compare',
] as const // biome-ignore format: a list of words reads better in few lines

/** The names of the record tables, listed here so that nothing has to be loaded. */
const TABLE_NAMES = ['vineyards', ...STANDING_KINDS, 'actives', 'applications', ...SEASON_KINDS]

export const exportCommand: CommandBody = {
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
  async run(call, commands) {
    if (call.json)
      throw new UsageError('a table is no JSON report', 'write --format jsonl: one JSON object for each row')
    const [what] = call.args
    const format = (call.text('format') ?? 'csv') as Format
    if (what !== undefined && !TABLES.has(what)) return exportReport(call, commands, { what, format })
    const to = call.text('to')
    if (what === undefined && to === undefined)
      throw new UsageError(
        'say what to export, or where to put it all',
        `\`rowbook export sprays\` prints one; \`rowbook export --to FOLDER\` writes ${[...TABLES.keys()].join(', ')}`,
      )
    const ledgers = ledgersOf(call)
    const season = call.number('season', FIRST_YEAR, LAST_YEAR)
    const filters = filtersOf(call, ledgers, season)
    const tables = what === undefined ? [...TABLES.values()] : [TABLES.get(what)!]
    const lacking = what !== undefined && filters.find((filter) => columnOf(tables[0]!, filter) < 0)
    if (lacking)
      throw new UsageError(
        `the table ${what} has nothing that ${lacking.option} could choose by`,
        'leave it out',
      )
    const work = (sink: Sink) => writeTables(ledgers, { tables, sink, format, season, filters })
    const leftOut =
      to === undefined
        ? work((_, text) => call.env.out(text))
        : filesIn({ cwd: call.env.cwd, folder: to, tables, format }, work)
    for (const { name, why } of leftOut) call.env.err(`left out: ${safeLine(name)}: ${safeLine(why)}\n`)
    if (to !== undefined)
      call.env.err(`${ledgers.length - leftOut.length} of ${ledgers.length} ledgers in ${safeLine(to)}\n`)
    return leftOut.length > 0 ? 1 : 0
  },
}

/** Which rows of a record table are wanted. @throws UsageError where no ledger has such a block. */
function filtersOf(call: Call, ledgers: readonly LedgerFolder[], season: number | undefined): Filter[] {
  const blocks = new Set(call.texts('block').flatMap((text) => text.split(',')))
  if (blocks.has('all')) blocks.clear()
  const isThere = (id: string) => ledgers.some(({ root }) => filesOnDisk(root).has(`blocks/${id}.yaml`))
  const unknown = [...blocks].find((id) => !/^[a-z0-9-]+$/.test(id) || !isThere(id))
  if (unknown !== undefined)
    throw new UsageError(`there is no block \`${unknown}\``, '`rowbook export blocks` lists their ids')
  const asOf = call.date('as-of')
  const filters: Filter[] = []
  if (season !== undefined)
    filters.push({ option: '--season', column: 'season', fits: (value) => value === season })
  if (asOf !== undefined)
    filters.push({ option: '--as-of', column: 'date', fits: (value) => String(value) <= asOf })
  if (blocks.size > 0)
    filters.push({
      option: '--block',
      column: 'block',
      fits: (value) => [value].flat().some((id) => blocks.has(String(id))),
    })
  return filters
}

function ledgersOf(call: Call): LedgerFolder[] {
  const { cwd } = call.env
  const folder = call.text('ledgers')
  const named = call.texts('ledger')
  if (folder === undefined) return ledgersNamed(cwd, named.length > 0 ? named : [findLedger(cwd)])
  if (named.length > 0) throw new UsageError('--ledger and --ledgers both say which', 'give one of them')
  return ledgersIn(cwd, folder)
}

/** A report's JSON, split into tables; returns its exit status. */
async function exportReport(
  call: Call,
  commands: Commands,
  { what, format }: { what: string; format: Format },
): Promise<number> {
  const [word, ...rest] = what.split('.')
  const name = REPORTS.find((one) => one === word)
  if (name === undefined) {
    throw new UsageError(
      `there is no table or report \`${what}\``,
      `tables: ${[...TABLES.keys()].join(', ')}; reports: ${REPORTS.join(', ')}`,
    )
  }
  if (call.text('ledgers') !== undefined || call.texts('ledger').length > 1)
    throw new UsageError('a report is of one ledger', 'name one with --ledger')
  let answer = ''
  const values = { ...call.values, json: true, ledger: call.texts('ledger')[0] }
  const env = Object.create(call.env, { out: { value: (text: string) => (answer += text) } }) as Call['env']
  const [command] = await commands([name])
  const status = await command!.run(new Call(name, [], values, env), commands)
  const { data, cautions } = JSON.parse(answer) as { data: unknown; cautions: string[] }
  const tables = tablesIn(data)
  const path = rest.join('.')
  const table = path === '' ? tables[0] : tables.find((one) => one.path === path)
  if (!table)
    throw new UsageError(
      `\`${name}\` has no table \`${path}\` with rows`,
      `it has: ${tables.map((one) => `${name}.${one.path}`).join(', ') || 'none'}`,
    )
  // The file may be passed on alone, so every row carries the cautions of its report.
  const caution: Record<string, string> = cautions.length > 0 ? { caution: cautions.join(' ') } : {}
  const columns = [...table.columns, ...Object.keys(caution)]
  call.env.out(headLine(columns, format))
  for (const row of table.rows) {
    const cells = { ...row, ...caution }
    call.env.out(
      rowLine(
        columns,
        columns.map((column) => cells[column] ?? null),
        format,
      ),
    )
  }
  return status
}
