import { isTimeZone } from '../../records/clock.ts'
import { dayNumber } from '../../records/date.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { filesOnDisk, type LedgerFiles } from './files.ts'

interface Site {
  latitude: number
  season_starts?: string
  timezone?: string
}

/**
 * The little of `vineyard.yaml` that decides which season is meant, before the ledger is read. What can't be
 * read here is left out; opening the ledger tells what is wrong with it.
 */
export function readSite(root: string, files: LedgerFiles = filesOnDisk(root)): Site {
  const site: Site = { latitude: 45 }
  const { text } = files.read('vineyard.yaml')
  const node = text === undefined ? null : readYaml({ file: 'vineyard.yaml', text }).node
  if (node?.kind !== 'map') return site
  for (const { key, value } of node.entries) {
    if (value.kind !== 'scalar') continue
    if (key === 'latitude' && typeof value.value === 'number') site.latitude = value.value
    if (key === 'season_starts' && dayNumber(`2025-${value.text}`) !== null) site.season_starts = value.text
    if (key === 'timezone' && isTimeZone(value.text)) site.timezone = value.text
  }
  return site
}
