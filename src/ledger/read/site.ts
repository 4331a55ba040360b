import { isTimeZone } from '../../records/clock.ts'
import { dayNumber } from '../../records/date.ts'
import type { Vineyard } from '../../records/kinds/vineyard.ts'
import { dependsOnSite, type SiteWay, siteWay } from '../../records/typed/site-way.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { filesOnDisk, type LedgerFiles } from './files.ts'

export interface Site {
  latitude: number
  season_starts?: string
  timezone?: string
  units?: 'metric' | 'us' | 'imperial'
}

/** A system of units by its name; undefined where it is none. */
const unitSystem = (text: string): Site['units'] =>
  text === 'uk' ? 'imperial' : text === 'metric' || text === 'us' || text === 'imperial' ? text : undefined

/**
 * The parts of `vineyard.yaml` needed before the ledger is read, or without it: which season is meant, and its
 * units. What can't be read is left out here; opening the ledger reports what is wrong.
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
    if (key === 'units') site.units = unitSystem(value.text)
    if (key === 'timezone' && isTimeZone(value.text)) site.timezone = value.text
  }
  return site
}

/** How the site affects the meaning of a text; null where nothing in it depends on the site. */
export const wayFor = (text: string, { vineyard }: { vineyard: Vineyard }): SiteWay | null =>
  dependsOnSite(text) ? siteWay(vineyard) : null
