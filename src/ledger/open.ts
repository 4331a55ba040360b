import { basename } from 'node:path'
import type { z } from 'zod'
import { ID_SHAPE } from '../records/fields.ts'
import {
  SEASON_KINDS,
  SEASONAL,
  type SeasonKind,
  STANDING,
  type StandingKind,
  VINEYARD,
} from '../records/kinds.ts'
import type { Vineyard } from '../records/vineyard.ts'
import { filesOnDisk, type LedgerFiles } from './files.ts'
import { NoLedger } from './find.ts'
import { aboutFile, byPlace, type Finding } from './finding.ts'
import { listLedger } from './folder.ts'
import type { Ledger, Named, Need, Seasonal } from './ledger.ts'
import { readEntry } from './read-entry.ts'
import { readYaml } from './read-yaml.ts'
import { resolveReferences } from './resolve.ts'
import { seasonSpan } from './seasons.ts'
import { type FileText, type Node, type Placed, placed, placeOf, type Source } from './source.ts'

/**
 * Reads a ledger, or the part of it that is needed. Broken records are left out and told in `findings`;
 * whoever computes with the rest must look there first (`isBroken`).
 * @param files where to read from, else the disk.
 * @throws NoLedger where `vineyard.yaml` can't be read at all.
 */
export function openLedger(root: string, need: Need, files: LedgerFiles = filesOnDisk(root)): Ledger {
  const contents = listLedger(root, files)
  const ledger: Ledger = {
    root,
    reader: files,
    vineyard: NOWHERE,
    blocks: new Map(),
    varieties: new Map(),
    products: new Map(),
    sprayers: new Map(),
    sprays: [],
    scouting: [],
    samples: [],
    stages: [],
    crop: [],
    picks: [],
    work: [],
    seasons: contents.seasons,
    weather: new Map(contents.weather.map(({ season, file }) => [season, file])),
    findings: [...contents.findings],
    files: 0,
  }
  const site = readVineyard(ledger)
  if (site) ledger.vineyard = site
  for (const { kind, file } of contents.standing) readStanding(ledger, kind, file)
  for (const { kind, season, file } of contents.seasonal) {
    if (isNeeded(need, kind, season)) readSeasonal(ledger, { kind, season, file, checkSeason: site !== null })
  }
  for (const kind of SEASON_KINDS)
    ledger[kind].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
  ledger.findings.push(...resolveReferences(ledger, contents.standing))
  ledger.findings.sort(byPlace)
  return ledger
}

/** Whether records had to be left out, so that no figure of the ledger can be trusted yet. */
export function isBroken(ledger: Ledger): boolean {
  return ledger.findings.some((finding) => finding.level === 'error')
}

/** The site while `vineyard.yaml` is broken: only so that the other files can still be checked. */
const NOWHERE = placed({ name: '', latitude: 0, timezone: 'UTC', units: 'metric' } satisfies Vineyard, {
  at: { file: 'vineyard.yaml', text: '' },
  node: { kind: 'map', start: 0, end: 0, entries: [] },
})

function isNeeded(need: Need, kind: SeasonKind, season: number): boolean {
  if (need.kinds && !need.kinds.includes(kind) && !need.history?.includes(kind)) return false
  if (need.seasons === 'all') return true
  if (need.seasons.includes(season) && (!need.kinds || need.kinds.includes(kind))) return true
  return need.history?.includes(kind) === true && season <= Math.max(...need.seasons)
}

function readNode(ledger: Ledger, file: string): { at: FileText; node: Node } | null {
  ledger.files += 1
  const read = ledger.reader.read(file)
  if (read.finding) {
    ledger.findings.push(read.finding)
    return null
  }
  const at = { file, text: read.text }
  const known = ledger.reader.shared?.nodes.get(read.text)
  if (known) return { at, node: known }
  const { node, findings } = readYaml(at)
  ledger.findings.push(...findings)
  if (node) {
    ledger.reader.shared?.nodes.set(read.text, node)
    return { at, node }
  }
  if (findings.length === 0) {
    ledger.findings.push(
      aboutFile(file, {
        name: 'empty-file',
        message: 'the file holds nothing',
        help: 'write an entry, or delete the file',
      }),
    )
  }
  return null
}

function readRecord<S extends z.ZodType<object>>(
  ledger: Ledger,
  schema: S,
  source: Source,
): Placed<z.output<S>> | null {
  const { record, findings } = readEntry(schema, source)
  ledger.findings.push(...findings)
  return record
}

function readVineyard(ledger: Ledger): Placed<Vineyard> | null {
  const read = ledger.reader.read('vineyard.yaml')
  if (read.finding?.name === 'unreadable-file')
    throw new NoLedger(`vineyard.yaml: ${read.finding.message}`, read.finding.help)
  const source = readNode(ledger, 'vineyard.yaml')
  return source && readRecord(ledger, VINEYARD, source)
}

function readStanding(ledger: Ledger, kind: StandingKind, file: string): void {
  const id = basename(file, '.yaml')
  if (!ID_SHAPE.test(id)) {
    ledger.findings.push(
      aboutFile(file, {
        name: 'bad-id',
        message: 'the file name is no id',
        help: 'name it in lower-case words joined by hyphens, like top-terrace.yaml',
      }),
    )
    return
  }
  const source = readNode(ledger, file)
  const record = source && readRecord(ledger, STANDING[kind] as z.ZodType<object>, source)
  if (record) (ledger[kind] as Map<string, Named<object>>).set(id, Object.assign(record, { id }))
}

interface SeasonalFile {
  kind: SeasonKind
  season: number
  file: string
  checkSeason: boolean
}

function readSeasonal(ledger: Ledger, { kind, season, file, checkSeason }: SeasonalFile): void {
  const source = readNode(ledger, file)
  if (!source) return
  const nodes = source.node.kind === 'list' ? source.node.items : [source.node]
  for (const node of nodes) {
    const record = readRecord(ledger, SEASONAL[kind] as z.ZodType<{ date: string }>, { at: source.at, node })
    if (!record) continue
    if (checkSeason) checkDate(ledger, record, season)
    ;(ledger[kind] as Seasonal<{ date: string }>[]).push(Object.assign(record, { season }))
  }
}

function checkDate(ledger: Ledger, record: Placed<{ date: string }>, season: number): void {
  const { first, last } = seasonSpan(ledger.vineyard, season)
  if (record.date >= first && record.date <= last) return
  const finding: Finding = {
    ...placeOf(record.source, ['date']),
    name: 'wrong-season',
    level: 'error',
    message: `${record.date} is not in season ${season}, which runs from ${first} to ${last}`,
    help: 'correct the date, or move the entry to the folder of its season',
  }
  ledger.findings.push(finding)
}
