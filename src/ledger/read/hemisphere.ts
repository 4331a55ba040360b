import { latitudesOf } from '../../records/clock.ts'
import { SEASON_KINDS } from '../../records/kinds.ts'
import { errorAt } from './finding.ts'
import type { Ledger } from './ledger.ts'
import { seasonSpan } from './seasons.ts'
import { placed, placeOf } from './source.ts'

/** Fewest entries outside their season, and least share of all, that tell of a wrong sign where the time zone doesn't. */
const FEWEST = 3
const LEAST_SHARE = 0.25

/**
 * Tells of a latitude with the wrong sign once, in place of all entries that seem to lie outside their season: where
 * each entry lies within its season as the other hemisphere counts it. The rest is checked by the right sign.
 */
export function tellWrongSign(ledger: Ledger): void {
  const { vineyard } = ledger
  const { latitude, season_starts, timezone } = vineyard
  const zone = latitudesOf(timezone)
  const isWithin = (one: number) => zone === undefined || (one >= zone.low && one <= zone.high)
  const isTold = (file: string) => file.startsWith('seasons/') && file.endsWith('.yaml')
  const told = ledger.findings.filter(({ name, file }) => name === 'wrong-season' && isTold(file))
  if (told.length === 0 || season_starts !== undefined || !isWithin(-latitude)) return
  const entries = SEASON_KINDS.flatMap((kind): readonly { date: string; season: number }[] => ledger[kind])
  const other = placed({ ...vineyard, latitude: -latitude }, vineyard.source)
  const isAmiss = entries.some(({ date, season }) => {
    const { first, last } = seasonSpan(other, season)
    return date < first || date > last
  })
  const isFew = told.length < FEWEST || told.length < entries.length * LEAST_SHARE
  if (isAmiss || (isFew && isWithin(latitude))) return
  ledger.vineyard = other
  ledger.findings = ledger.findings.filter((one) => !told.includes(one))
  const fault = {
    name: 'wrong-season',
    message: `at latitude ${latitude}, ${told.length} of ${entries.length} entries lie outside their season; at ${-latitude} all lie within it`,
    help: `write \`latitude: ${-latitude}\` (north is positive, south negative). Until then, the rest is checked at that latitude`,
  }
  ledger.findings.push(errorAt(placeOf(vineyard.source, ['latitude']), fault))
}
