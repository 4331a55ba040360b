import { isAbsolute, relative, resolve, sep } from 'node:path'
import type { Ledger } from '../../ledger/read/ledger.ts'
import { openLedger } from '../../ledger/read/open.ts'
import { placeOf } from '../../ledger/read/source.ts'
import { type AnyEntry, isOn } from '../../ledger/write/add.ts'
import { lastWritten, mayBeNew } from '../../ledger/write/kept.ts'
import { readYaml } from '../../ledger/yaml/read-yaml.ts'
import { SEASON_KINDS, type SeasonKind } from '../../records/kinds.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'

/** An entry that is to be changed. */
export interface Chosen {
  ledger: Ledger
  kind: SeasonKind
  season: number
  old: AnyEntry
  /** Its place in the file's list; empty where the file is one entry. */
  path: readonly number[]
}

/**
 * Finds the entry that `FILE`, `FILE:LINE` or `last` names.
 * @throws UsageError where it names none, or several
 */
export function chooseEntry(call: Call, said: string): Chosen {
  const { root, season: now } = call.place()
  const { file, line } =
    said === 'last' ? { file: lastFile(root, now), line: undefined } : fileOf(call, root, said)
  const season = Number(/^seasons\/(\d{4})\//.exec(file)?.[1])
  if (!season)
    throw new UsageError(
      `${file} is not an entry of a season`,
      'name a file under seasons/, like seasons/2026/picks/2026-09-29-top-terrace.yaml, or last',
    )
  const ledger = openLedger(root, { seasons: [season], history: [...SEASON_KINDS] })
  const fault = ledger.findings.find((finding) => finding.file === file && finding.level === 'error')
  const found = SEASON_KINDS.flatMap((kind) =>
    (ledger[kind] as AnyEntry[])
      .filter((entry) => entry.source.at.file === file)
      .map((old) => ({ ledger, kind, season, old, path: pathOf(old) })),
  )
  const lines = found.map(({ old }) => placeOf(old.source).line)
  const ones = line === undefined ? found : found.filter(({ old }) => isOn(old, line))
  if (ones.length === 1) return ones[0]!
  if (fault)
    throw new UsageError(
      `${file}:${fault.line}:${fault.column}: ${fault.message}`,
      'mend it in an editor first',
    )
  if (found.length === 0) throw new UsageError(`there is no entry in ${file}`, 'check the name')
  throw new UsageError(
    line === undefined ? `${file} holds ${found.length} entries` : `no entry of ${file} is on line ${line}`,
    `say which by its line: ${lines
      .slice(0, 8)
      .map((at) => `${file}:${at}`)
      .join(', ')}`,
  )
}

function pathOf({ source: { at, node } }: AnyEntry): readonly number[] {
  const { node: whole } = readYaml(at)
  if (whole?.kind !== 'list') return []
  return [whole.items.findIndex(({ start }) => start === node.start)]
}

/** The path of a file inside the ledger, from one typed relative to the ledger or to the current folder. */
function fileOf(call: Call, root: string, said: string): { file: string; line: number | undefined } {
  const parts = /^(.*?)(?::(\d+)(?::\d+)?)?$/.exec(said)!
  const name = parts[1]!
  const line = parts[2] === undefined ? undefined : Number(parts[2])
  if (!isAbsolute(name) && name.startsWith('seasons/')) return { file: name, line }
  return { file: relative(root, resolve(call.env.cwd, name)).split(sep).join('/'), line }
}

/** The file of the entry that was written last. @throws UsageError where none is known, or several were at once */
function lastFile(root: string, season: number): string {
  const last = lastWritten(root)
  const created = last?.did === 'new' ? last.files : []
  const files =
    last?.did === 'amended' ? [last.file] : created.flatMap((one) => mayBeNew(root, one).slice(-1))
  if (files.length === 1) return files[0]!
  const isNone = files.length === 0
  const named = isNone ? newestOf(root, season) : files.join('`, or `--amend ')
  throw new UsageError(
    isNone ? 'no entry is known here that rowbook wrote last' : `${files.length} entries were written last`,
    named === null
      ? 'no entry is here yet: write one with `rowbook note`'
      : `name the file: \`--amend ${named}\``,
  )
}

/** The file of the latest entry of a season, with its line where the file holds a list; null where there is none. */
function newestOf(root: string, season: number): string | null {
  const ledger = openLedger(root, { seasons: [season] })
  const [newest] = SEASON_KINDS.flatMap((kind) => ledger[kind] as AnyEntry[]).sort((a, b) =>
    a.date < b.date ? 1 : -1,
  )
  if (!newest) return null
  const { file, line } = placeOf(newest.source)
  return pathOf(newest).length > 0 ? `${file}:${line}` : file
}
