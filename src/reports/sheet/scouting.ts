import { unitsForPrecision, unitsToDetect } from '../../agronomy/disease/detection.ts'
import { highest } from '../../agronomy/statistics/extremes.ts'
import { vinesOf } from '../../facts/block-size.ts'
import { judgedDiseases } from '../../facts/danger/known.ts'
import { type RoundRow, roundsOf } from '../../facts/disease/round-rows.ts'
import { drawPlaces } from '../../facts/places.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { IsoDate } from '../../records/date.ts'
import { type Disease, diseaseWord } from '../../records/disease.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Organ } from '../../records/kinds/scouting.ts'
import { spokenDateAsOf } from '../../records/spoken-date.ts'
import type { BlockSheet, SheetOptions, Wanted } from './sheet-block.ts'

/** Share that a round is to find with 95 % confidence, and the half width wanted where it was found: those of `scouting`. */
const DETECT = 0.03
const PRECISION = 5

/** Bunches or leaves looked at on one vine. Those of one vine are alike, so few each. Common practice, no source. */
const PER_VINE = 5

/** Organs on which a disease isn't looked for. */
const NOT_ON: Partial<Record<Organ, readonly Disease[]>> = { leaves: ['botrytis'] }

/** A round through a block: random vines, and on each how many of every organ show each disease. */
export function scoutingSheet(
  block: Named<Block>,
  input: ReportInput,
  { seed, precision = PRECISION, vines, organs = ['bunches', 'leaves'] }: SheetOptions,
): BlockSheet {
  const newest = newestRows(roundsOf({ ...input, blocks: [block] }))
  const most = highest(organs.map((organ) => unitsFor(organ, { newest, precision, asOf: input.asOf }).units))
  const count = Math.max(1, Math.min(vines ?? Math.ceil(most / PER_VINE), vinesOf(block).alive))
  const { asOf } = input
  const wanted = organs.map((organ): Wanted => {
    const { units, why } = unitsFor(organ, { newest, precision, asOf })
    return { what: organ, units, perVine: Math.ceil(units / count), why }
  })
  const diseases = judgedDiseases(input.ledger)
  const asked = organs.flatMap((organ) =>
    diseases.filter((disease) => !NOT_ON[organ]?.includes(disease)).map((disease) => ({ disease, organ })),
  )
  const found = asked.map(({ disease, organ }) => `--found ${disease}.${organ}=__`).join(' ')
  const looked = organs.map((organ) => `--looked-at ${organ}=__`).join(' ')
  return {
    last: newest.map((row) => sayRow(row, asOf)),
    wanted,
    next: [],
    leavesOut: [],
    columns: asked.map(({ disease, organ }) => `${diseaseWord(disease)}: ${organ}`),
    lines: drawPlaces(block, { seed, count }).map((place) => ({ label: '', places: [place] })),
    once: organs.map((organ) => `${organ} looked at in all`),
    typeIn: `rowbook note scouting --block ${block.id} ${looked} ${found}`,
  }
}

/** The newest round of each disease and organ. */
function newestRows(rows: readonly RoundRow[]): RoundRow[] {
  const newest = new Map(rows.map((row) => [`${row.disease} ${row.organ}`, row]))
  return [...newest.values()]
}

function unitsFor(
  organ: Organ,
  { newest, precision, asOf }: { newest: readonly RoundRow[]; precision: number; asOf: IsoDate },
): { units: number; why: string } {
  const toDetect = unitsToDetect(DETECT)
  const needed = newest
    .filter((row) => row.organ === organ && row.found > 0)
    .map((row) => ({
      row,
      units: unitsForPrecision({ share: row.incidence }, { halfWidth: precision / 100 }),
    }))
  const worst = needed.sort((a, b) => b.units - a.units)[0]
  if (!worst || worst.units <= toDetect)
    return { units: toDetect, why: `enough to find disease on ${DETECT * 100} % of them, 19 times in 20` }
  const { row, units } = worst
  return {
    units,
    why: `enough to know ${diseaseWord(row.disease)} to ±${precision} %, if it is as on ${spokenDateAsOf(row.date, asOf)}`,
  }
}

const sayRow = ({ date, disease, organ, found, looked }: RoundRow, asOf: IsoDate) =>
  `${spokenDateAsOf(date, asOf)}: ${diseaseWord(disease)} on ${found} of ${looked} ${organ}`
