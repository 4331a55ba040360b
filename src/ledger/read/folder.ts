import { FIRST_YEAR, LAST_YEAR } from '../../records/date.ts'
import { SEASON_KINDS, type SeasonKind, STANDING_KINDS, type StandingKind } from '../../records/kind-names.ts'
import { type FolderEntry, filesOnDisk, type LedgerFiles } from './files.ts'
import { aboutFile, type Finding } from './finding.ts'
import { nearest } from './read-entry.ts'
import { seasonNamed } from './seasons.ts'

/** The files of a ledger by content, and anything in the folder that can't be part of it. */
interface Contents {
  standing: { kind: StandingKind; file: string }[]
  seasonal: { kind: SeasonKind; season: number; file: string }[]
  stations: { season: number; file: string }[]
  seasons: number[]
  findings: Finding[]
}

/** Lists the files of a ledger, in order of name. Follows no links and skips hidden files. */
export function listLedger(root: string, files: LedgerFiles = filesOnDisk(root)): Contents {
  const contents: Contents = { standing: [], seasonal: [], stations: [], seasons: [], findings: [] }
  const top = list(files, '')
  // Listing a folder by its path would follow a link in its place.
  const own = new Set(top.filter((entry) => entry.isDirectory()).map(({ name }) => name))
  for (const entry of top) {
    if (!entry.isDirectory() || !isNear(entry.name, [...STANDING_KINDS, 'seasons']))
      stray(entry, '', contents, ['vineyard.yaml'])
  }
  for (const kind of STANDING_KINDS) {
    for (const entry of own.has(kind) ? list(files, kind) : []) {
      const file = `${kind}/${entry.name}`
      if (isRecordFile(entry)) contents.standing.push({ kind, file })
      else stray(entry, kind, contents)
    }
  }
  for (const entry of own.has('seasons') ? list(files, 'seasons') : []) {
    const year = seasonNamed(entry.name)
    if (entry.isDirectory() && year !== null) season(files, year, contents)
    else if (entry.isDirectory() && /^\d+$/.test(entry.name)) contents.findings.push(noSeason(entry.name))
    else stray(entry, 'seasons', contents)
  }
  return contents
}

/** The seasons that a ledger has a folder for, in order. */
export function seasonsIn(files: LedgerFiles): number[] {
  // Listing a folder by its path would follow a link in its place.
  if (!list(files, '').some((entry) => entry.name === 'seasons' && entry.isDirectory())) return []
  return list(files, 'seasons').flatMap((entry) => (entry.isDirectory() && seasonNamed(entry.name)) || [])
}

function season(files: LedgerFiles, year: number, contents: Contents): void {
  const folder = `seasons/${year}`
  contents.seasons.push(year)
  for (const entry of list(files, folder)) {
    const kind = SEASON_KINDS.find((one) => entry.name === one || entry.name === `${one}.yaml`)
    if (entry.name === 'weather.csv' && !entry.isDirectory())
      contents.stations.push({ season: year, file: `${folder}/weather.csv` })
    else if (kind && entry.isDirectory()) records(files, kind, year, contents)
    else if (kind && isRecordFile(entry))
      contents.seasonal.push({ kind, season: year, file: `${folder}/${entry.name}` })
    else
      stray(entry, folder, contents, [
        ...SEASON_KINDS,
        ...SEASON_KINDS.map((one) => `${one}.yaml`),
        'weather.csv',
      ])
  }
}

function records(files: LedgerFiles, kind: SeasonKind, year: number, contents: Contents): void {
  const folder = `seasons/${year}/${kind}`
  for (const entry of list(files, folder)) {
    if (isRecordFile(entry)) contents.seasonal.push({ kind, season: year, file: `${folder}/${entry.name}` })
    else stray(entry, folder, contents)
  }
}

/** A link or a device with a record's name counts as one, so that reading it says why it is refused. */
const isRecordFile = (entry: FolderEntry) => !entry.isDirectory() && entry.name.endsWith('.yaml')

const noSeason = (name: string): Finding =>
  aboutFile(`seasons/${name}`, {
    name: 'wrong-season',
    message: `${name} is no year from ${FIRST_YEAR} to ${LAST_YEAR}, so nothing in this folder is read`,
    help: 'name the folder by the year of its harvest, like seasons/2026',
  })

/** Reports a file that looks like a record in a place where none is read; other files are the grower's own business. */
function stray(entry: FolderEntry, folder: string, contents: Contents, known: string[] = []): void {
  const file = folder ? `${folder}/${entry.name}` : entry.name
  if (!entry.isDirectory() && isReadAsFolder(folder, entry.name)) {
    contents.findings.push(
      aboutFile(file, {
        name: 'not-a-folder',
        message: 'this is a link or a file where a folder is read, and rowbook follows no link',
        help: 'put the folder itself here, or take this away',
      }),
    )
    return
  }
  if (known.includes(entry.name) && !entry.isDirectory()) return
  // A spreadsheet mapping may be kept with the records.
  const looksLikeRecord = /\.ya?ml$/i.test(entry.name) && !entry.name.endsWith('.map.yaml')
  const inside = folder !== '' && entry.isDirectory()
  if (!looksLikeRecord && !inside && !(folder === '' && entry.isDirectory() && nearMiss(entry.name))) return
  const help =
    looksLikeRecord && !entry.name.endsWith('.yaml')
      ? 'let its name end in `.yaml`'
      : (nearest(entry.name, knownNames(folder, known)) ??
        'move it where it belongs, or give it another ending')
  contents.findings.push(
    aboutFile(file, {
      name: 'stray-file',
      level: 'warning',
      message: `rowbook reads nothing ${entry.isDirectory() ? 'in this folder' : 'from this file'}`,
      help,
    }),
  )
}

/** Whether a folder of this name holds records, which would be lost silently if it were skipped. */
function isReadAsFolder(folder: string, name: string): boolean {
  if (folder === '') return isNear(name, [...STANDING_KINDS, 'seasons'])
  if (folder === 'seasons') return /^\d{4}$/.test(name)
  return isNear(name, SEASON_KINDS) && /^seasons\/\d{4}$/.test(folder)
}

function knownNames(folder: string, known: string[]): string[] {
  return folder === '' ? [...STANDING_KINDS, 'seasons', 'vineyard.yaml'] : known
}

const isNear = (name: string, known: readonly string[]) => known.includes(name)

function nearMiss(name: string): boolean {
  return nearest(name, [...STANDING_KINDS, 'seasons', 'season']) !== null
}

function list(files: LedgerFiles, folder: string): FolderEntry[] {
  const entries = files.list(folder).filter((entry) => !entry.name.startsWith('.'))
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1))
}
