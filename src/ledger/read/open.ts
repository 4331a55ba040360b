import { basename } from 'node:path'
import type { z } from 'zod'
import { addAll } from '../../records/add-all.ts'
import { ID_SHAPE, SEASON_KINDS, type SeasonKind, type StandingKind } from '../../records/kind-names.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { SEASONAL, STANDING, vineyard } from '../../records/kinds.ts'
import { longDate } from '../../records/spoken-date.ts'
import { dependsOnSite, type SiteWay, siteWay } from '../../records/typed/site-way.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { CannotRead } from './cannot-read.ts'
import { inKilograms } from './containers.ts'
import { filesOnDisk, type LedgerFiles } from './files.ts'
import { aboutFile, byPlace, errorAt, type Finding } from './finding.ts'
import { listLedger } from './folder.ts'
import { tellWrongSign } from './hemisphere.ts'
import { isNeeded, type Ledger, type Named, type Need, type Seasonal } from './ledger.ts'
import { readEntry } from './read-entry.ts'
import { resolveReferences } from './resolve.ts'
import { seasonSpan } from './seasons.ts'
import { readSite, wayFor } from './site.ts'
import { type FileText, type Node, type Placed, placed, placeOf, type Source } from './source.ts'

/**
 * Reads a ledger, or the part of it that is needed. Broken records are left out and reported in `findings`;
 * check `isBroken` before calculating with the rest.
 * @param files where to read from, else the disk.
 * @throws CannotRead where `vineyard.yaml` can't be read at all, or a folder can't be listed.
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
    weather: [],
    stations: new Map(contents.stations.map(({ season, file }) => [season, file])),
    findings: [...contents.findings],
    files: 0,
  }
  const site = readVineyard(ledger)
  if (site) ledger.vineyard = site
  for (const { kind, file } of contents.standing) readStanding(ledger, kind, file)
  const from = need.from?.(ledger) ?? Number.NEGATIVE_INFINITY
  const spans = new Map(contents.seasons.map((season) => [season, site && seasonSpan(site, season)]))
  for (const { kind, season, file } of contents.seasonal) {
    if (isNeeded(need, { kind, season, from }))
      readSeasonal(ledger, { kind, season, file, span: spans.get(season) ?? null })
  }
  if (site) tellWrongSign(ledger)
  for (const kind of SEASON_KINDS)
    ledger[kind].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0))
  addAll(ledger.findings, resolveReferences(ledger, contents.standing))
  ledger.findings.sort(byPlace)
  return ledger
}

/** Whether records were left out, so that no figure from the ledger can be trusted yet. */
export function isBroken(ledger: Ledger): boolean {
  return ledger.findings.some((finding) => finding.level === 'error')
}

/** A placeholder site while `vineyard.yaml` is broken, so that the other files can still be checked. */
const NOWHERE = placed({ name: '', latitude: 45, timezone: 'UTC', units: 'metric' } satisfies Vineyard, {
  at: { file: 'vineyard.yaml', text: '' },
  node: { kind: 'map', start: 0, end: 0, entries: [] },
})

/** The form of a file: one entry, or where allowed a list of entries, with their schema. */
interface Form<T> {
  single: boolean
  schema: () => z.ZodType<T>
  /** For `vineyard.yaml`: what its own text says about the site. */
  way?: (text: string) => SiteWay | null
}

/**
 * Reads a file and checks its entries. Faults are added to the ledger's findings; broken entries are left out.
 * Where the file is unchanged since an earlier run and the cache has its records, they come from there, and the
 * text is parsed only when the place of a value is needed.
 */
function readRecords<T extends object>(ledger: Ledger, file: string, form: Form<T>): Placed<T>[] {
  ledger.files += 1
  const { findings, reader } = ledger
  const read = reader.read(file)
  if (read.finding) {
    findings.push(read.finding)
    return []
  }
  const at = { file, text: read.text }
  const way = form.way?.(at.text) ?? wayFor(at.text, ledger)
  // The records also depend on the site, where the site decides how the text is read.
  const key = way ? `${at.text}\n# ${JSON.stringify(way)}` : at.text
  const known = reader.shared?.records.get(file)
  if (known?.text === key) return known.records as Placed<T>[]
  const share = (records: Placed<T>[]) => {
    reader.shared?.records.set(file, { text: key, records })
    return records
  }
  const nodes = new EntryNodes(at, form.single, reader.shared)
  const cached = reader.cache?.find(file, key)
  if (cached) return share(cached.map((record, index) => placed(record as T, nodes.source(index))))
  const found = findings.length
  const node = readNode(ledger, at)
  const entries = node ? nodes.hold(node) : []
  const records: Placed<T>[] = []
  const faults: Finding[] = []
  for (const index of entries.keys()) {
    const entry = readEntry(form.schema(), nodes.source(index), way)
    addAll(faults, entry.findings)
    if (entry.record) records.push(entry.record)
    if (faults.length < MOST_FAULTS) continue
    const rest = 'there is more than can be told: the rest of this file was not looked at'
    faults.push({ ...faults.at(-1)!, message: rest, help: 'repair what is listed, then look again' })
    break
  }
  addAll(findings, faults)
  if (findings.length > found) return records
  nodes.release()
  reader.cache?.keep(file, key, records)
  return share(records)
}

/** Most faults in one file before the rest is skipped: it is some other kind of file, or hostile. */
const MOST_FAULTS = 300

/**
 * The nodes of a file's entries. Those of a whole ledger take most of its memory, so they are released once the
 * entries are read; where the place of a value is needed, the file is parsed again.
 */
class EntryNodes {
  private held: readonly Node[] | null = null

  constructor(
    private readonly at: FileText,
    private readonly single: boolean,
    private readonly shared: LedgerFiles['shared'],
  ) {}

  hold(node: Node): readonly Node[] {
    this.held = node.kind === 'list' && !this.single ? node.items : [node]
    return this.held
  }

  release(): void {
    this.held = null
  }

  source(index: number): Source {
    const nodes = () =>
      this.held ?? this.hold(this.shared?.nodes.get(this.at.text) ?? readYaml(this.at).node!)
    return {
      at: this.at,
      get node() {
        return nodes()[index]!
      },
    }
  }
}

function readNode(ledger: Ledger, at: FileText): Node | null {
  const { shared } = ledger.reader
  const known = shared?.nodes.get(at.text)
  if (known) return known
  const { node, findings } = readYaml(at)
  addAll(ledger.findings, findings)
  if (node) shared?.nodes.set(at.text, node)
  else if (findings.length === 0) {
    ledger.findings.push(
      aboutFile(at.file, {
        name: 'empty-file',
        message: 'the file holds nothing',
        help: 'write an entry, or delete the file',
      }),
    )
  }
  return node
}

function readVineyard(ledger: Ledger): Placed<Vineyard> | null {
  const read = ledger.reader.read('vineyard.yaml')
  if (read.finding?.name === 'unreadable-file')
    throw new CannotRead(`vineyard.yaml: ${read.finding.message}`, read.finding.help)
  const way = (text: string) => (dependsOnSite(text) ? siteWay(readSite(ledger.root, ledger.reader)) : null)
  return readRecords(ledger, 'vineyard.yaml', { single: true, schema: vineyard, way })[0] ?? null
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
  const schema = () => STANDING[kind] as z.ZodType<object>
  const [record] = readRecords(ledger, file, { single: true, schema })
  if (record) (ledger[kind] as Map<string, Named<object>>).set(id, Object.assign(record, { id }))
}

type Span = ReturnType<typeof seasonSpan>

/** @param span of the season; null while `vineyard.yaml` is broken. */
function readSeasonal(
  ledger: Ledger,
  { kind, season, file, span }: { kind: SeasonKind; season: number; file: string; span: Span | null },
): void {
  const form = { schema: () => SEASONAL[kind] as z.ZodType<{ date: string }>, single: false }
  for (const written of readRecords(ledger, file, form)) {
    const { record, findings } = inKilograms(kind, written, ledger)
    // If the site can't be read, the weight of its bucket is unknown.
    if (span) addAll(ledger.findings, findings)
    if (!record) continue
    if (span && (record.date < span.first || record.date > span.last))
      ledger.findings.push(wrongSeason(record, season, span))
    ;(ledger[kind] as Seasonal<{ date: string }>[]).push(Object.assign(record, { season }))
  }
}

const wrongSeason = (record: Placed<{ date: string }>, season: number, { first, last }: Span): Finding =>
  errorAt(placeOf(record.source, ['date']), {
    name: 'wrong-season',
    message: `${longDate(record.date)} is not in season ${season}, which runs from ${longDate(first)} to ${longDate(last)}`,
    help: 'correct the date, or move the entry to the folder of its season',
  })
