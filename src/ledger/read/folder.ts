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

/** Folders of a ledger. */
const TOP = [...STANDING_KINDS, 'seasons']

/** Lists the files of a ledger, in order of name. Follows no links and skips hidden files. */
export function listLedger(root: string, files: LedgerFiles = filesOnDisk(root)): Contents {
  const contents: Contents = { standing: [], seasonal: [], stations: [], seasons: [], findings: [] }
  const top = list(files, '')
  for (const entry of top) {
    if (!entry.isDirectory() || !TOP.includes(entry.name)) stray(entry, '', contents, ['vineyard.yaml'])
  }
  for (const kind of STANDING_KINDS) {
    for (const file of hasFolder(top, kind) ? recordFiles(files, kind, contents) : [])
      contents.standing.push({ kind, file })
  }
  for (const entry of hasFolder(top, 'seasons') ? list(files, 'seasons') : []) {
    const year = seasonNamed(entry.name)
    if (entry.isDirectory() && year !== null) season(files, year, contents)
    else if (entry.isDirectory() && /^\d+$/.test(entry.name)) contents.findings.push(noSeason(entry.name))
    else stray(entry, 'seasons', contents)
  }
  return contents
}

/** The seasons that a ledger has a folder for, in order. */
export function seasonsIn(files: LedgerFiles): number[] {
  if (!hasFolder(list(files, ''), 'seasons')) return []
  return list(files, 'seasons').flatMap((entry) => (entry.isDirectory() && seasonNamed(entry.name)) || [])
}

/** Whether a folder of this name is there; listing it by its path would follow a link in its place. */
const hasFolder = (entries: readonly FolderEntry[], name: string): boolean =>
  entries.some((entry) => entry.name === name && entry.isDirectory())

function season(files: LedgerFiles, year: number, contents: Contents): void {
  const folder = `seasons/${year}`
  contents.seasons.push(year)
  for (const entry of list(files, folder)) {
    const file = `${folder}/${entry.name}`
    const kind = SEASON_KINDS.find((one) => entry.name === one || entry.name === `${one}.yaml`)
    if (entry.name === 'weather.csv' && !entry.isDirectory()) contents.stations.push({ season: year, file })
    else if (kind && (entry.isDirectory() || isRecordFile(entry))) {
      for (const one of entry.isDirectory() ? recordFiles(files, file, contents) : [file])
        contents.seasonal.push({ kind, season: year, file: one })
    } else
      stray(entry, folder, contents, [
        ...SEASON_KINDS,
        ...SEASON_KINDS.map((one) => `${one}.yaml`),
        'weather.csv',
      ])
  }
}

/** The files in a folder of records. */
function recordFiles(files: LedgerFiles, folder: string, contents: Contents): string[] {
  return list(files, folder).flatMap((entry) => {
    if (isRecordFile(entry)) return `${folder}/${entry.name}`
    stray(entry, folder, contents)
    return []
  })
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
function stray(entry: FolderEntry, folder: string, { findings }: Contents, known: string[] = []): void {
  const { name } = entry
  const isFolder = entry.isDirectory()
  const file = folder ? `${folder}/${name}` : name
  if (!isFolder && isReadAsFolder(folder, name)) {
    const message = 'this is a link or a file where a folder is read, and rowbook follows no link'
    const help = 'put the folder itself here, or take this away'
    findings.push(aboutFile(file, { name: 'not-a-folder', message, help }))
    return
  }
  if (known.includes(name) && !isFolder) return
  // A spreadsheet mapping may be kept with the records.
  const looksLikeRecord = /\.ya?ml$/i.test(name) && !name.endsWith('.map.yaml')
  const isLikely = isFolder && (folder !== '' || nearest(name, [...TOP, 'season']) !== null)
  if (!looksLikeRecord && !isLikely) return
  const near = nearest(name, folder === '' ? [...TOP, 'vineyard.yaml'] : known)
  findings.push(
    aboutFile(file, {
      name: 'stray-file',
      level: 'warning',
      message: `rowbook reads nothing ${isFolder ? 'in this folder' : 'from this file'}`,
      help:
        looksLikeRecord && !name.endsWith('.yaml')
          ? 'let its name end in `.yaml`'
          : (near ?? 'move it where it belongs, or give it another ending'),
    }),
  )
}

/** Whether a folder of this name holds records, which would be lost silently if it were skipped. */
function isReadAsFolder(folder: string, name: string): boolean {
  if (folder === '') return TOP.includes(name)
  if (folder === 'seasons') return /^\d{4}$/.test(name)
  return /^seasons\/\d{4}$/.test(folder) && (SEASON_KINDS as readonly string[]).includes(name)
}

function list(files: LedgerFiles, folder: string): FolderEntry[] {
  const entries = files.list(folder).filter((entry) => !entry.name.startsWith('.'))
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1))
}
