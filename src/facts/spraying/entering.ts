import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import type { IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { instantOf } from '../../records/zone.ts'
import type { ReportInput } from '../report.ts'
import { keepOutOf } from './keep-out.ts'
import { sayOverLabel } from './over-label.ts'
import { sayUntil } from './re-entry.ts'

/** Days after a spray for which an unknown re-entry time is still spoken of. Our own choice. */
const DOUBT_DAYS = 4

/** Whether an unknown re-entry time of a spray is still spoken of on a morning. */
export const isInDoubt = (sprayed: IsoDate, morning: number, zone: string): boolean =>
  instantOf(sprayed, 0, zone) + DOUBT_DAYS * 86_400_000 > morning

/** Why nobody may enter a block at some hour of the day, in sentences; none where nothing recorded forbids it. */
export function enteringStops(
  { ledger, asOf, season }: Omit<ReportInput, 'blocks'>,
  block: Named<Block>,
): string[] {
  const zone = ledger.vineyard.timezone
  const morning = instantOf(asOf, 0, zone)
  const stops = ledger.sprays.flatMap((spray) => {
    if (!spray.blocks.includes(block.id) || spray.date > asOf) return []
    const { over, unknown, overLabel } = keepOutOf(ledger, spray)
    const doubtful = isInDoubt(spray.date, morning, zone)
    return [
      ...(over && over.instant > morning
        ? [`Keep out until ${sayUntil(over)} (re-entry interval, REI).`]
        : []),
      ...(overLabel.length > 0 && spray.season === season
        ? [`Sprayed ${spokenDate(spray.date)}: ${sayOverLabel(overLabel)}`]
        : []),
      ...(unknown.length > 0 && doubtful
        ? [
            `Keep out until you have read the label of ${unknown.join(' and ')}: no re-entry interval recorded.`,
          ]
        : []),
    ]
  })
  return [...new Set(stops)]
}
