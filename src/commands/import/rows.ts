import { type ImportKind, readMapping } from '../../ledger/import/mapping.ts'
import { mappingLike } from '../../ledger/import/mapping-like.ts'
import { readExport } from '../../ledger/import/outside.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import { folderOf } from '../../ledger/write/entry-file.ts'
import { importRows, writtenTo } from '../../reports/import/report.ts'
import { renderImport } from '../../reports/import/terminal.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { writeNew } from '../prompts/offer.ts'

/** Imports rows of a spreadsheet by a mapping. Shows them first; with `--yes` writes all of them or none. */
export async function importSpreadsheet(call: Call, file: string, kind: ImportKind): Promise<number> {
  const map = call.text('map')
  if (map === undefined) throw mapMissing(call.env.cwd, file, kind)
  const input = call.open({ seasons: 'all' })
  const { cwd } = call.env
  const { mapping, findings } = readMapping(map, { cwd, kind })
  const fault = findings.find(({ level }) => level === 'error')
  if (fault || !mapping) throw atPlace(fault!)
  const read = readExport(cwd, file)
  if (read.finding) throw atPlace(read.finding)
  const { ledger, asOf } = input
  const { report, readable, doubtful } = importRows({ ledger, asOf, kind, file, text: read.text, mapping })
  const refused = !readable || (doubtful && !call.flag('anyway'))
  if (refused || !call.flag('yes') || report.data.entries.length === 0) {
    if (readable && refused)
      call.env.err(
        'Some of it is recorded already, or breaks a rule; --anyway with --yes writes it all the same.\n',
      )
    return call.print(report, renderImport, { status: refused ? 1 : 0 })
  }
  const { root } = ledger
  const files = report.data.entries.map(({ season, stem, text }) => ({
    root,
    folder: folderOf(kind, season),
    stem,
    text,
  }))
  return call.print(writtenTo(report, writeNew(call, files)), renderImport)
}

/** How to go on where no mapping was named: one by the names of the columns. */
function mapMissing(cwd: string, file: string, kind: ImportKind): UsageError {
  const read = readExport(cwd, file)
  if (read.finding) return atPlace(read.finding)
  const like = mappingLike(kind, read.text)
  const way = 'add --map FILE; `rowbook schema mapping` shows its form'
  if (!like)
    return new UsageError('--map is missing', `write a file that says which column holds what, and ${way}`)
  const left = like.unused.length > 0 ? `\nNot understood: ${like.unused.join(', ')}.` : ''
  return new UsageError(
    '--map is missing',
    `put these lines in a file, correct them, and ${way}\n${like.lines.join('\n')}${left}`,
  )
}

const atPlace = ({ file, line, column, message, help }: Finding) =>
  new UsageError(`${file}:${line}:${column}: ${message}`, help)
