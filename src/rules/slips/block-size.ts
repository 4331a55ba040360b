import { areaOfVines, blockArea } from '../../agronomy/crop/area.ts'
import { sphericalArea } from '../../agronomy/crop/spherical-area.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { type JudgedLedger, judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { boundaryOf } from '../../ledger/read/boundary.ts'
import type { Ledger, Named, SprayEntry } from '../../ledger/read/ledger.ts'
import type { Placed } from '../../ledger/read/source.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Range } from '../../records/quantity.ts'
import { type Found, findingAt, mention, OWN_RULE, type Rule } from '../rule.ts'

/** Share by which two areas of one block may differ: headlands, and half a row at either side. */
const SHARE = 0.15
const BOUNDARY_SHARE = 0.3

/** A block whose figures don't agree with each other. */
export const areaDisagrees: Rule = {
  name: 'area-disagrees',
  what: 'Four areas should agree: as written, from rows and spacing, from the number of vines, and inside the outline. Over 15 % (30 % for the outline, which includes headlands) is a warning; over double is an error. More missing vines than planted ones is an error.',
  limits: 'A warning from 15 % (30 % for the outline), an error from double.',
  source:
    'own rule; area of rows: common practice; of the outline: sphere of 6 371 008.8 m, within 0.5 % of the ellipsoid',
  basis: 'own',
  check: ({ ledger }) =>
    [...ledger.blocks.values()].flatMap((block) => [...areas(ledger, block), missing(block)].flat()),
}

/** The area of a block that counts, against those of its rows, its vines and its outline. */
function areas(ledger: Ledger, block: Named<Block>): (Found | [])[] {
  const { area, boundary, rows, row_length, row_spacing, vines, vine_spacing } = block
  const whole = areaOf(block)
  const hasRows = rows !== undefined && row_length !== undefined
  const spacing = figureText(row_spacing, 'm')
  const against = (by: 'rows' | 'vines' | 'boundary', what: string, other: number): Found | [] => {
    const ratio = Math.max(whole / other, other / whole)
    if (!exceeds(ratio, 1 + (by === 'boundary' ? BOUNDARY_SHARE : SHARE))) return []
    return findingAt(block, [by === 'vines' || area === undefined ? by : 'area'], {
      level: exceeds(ratio, 2) ? 'error' : 'warning',
      message: `${block.name} is ${figureText(whole, 'ha')}, but ${what} ${figureText(other, 'ha')} (${mention(block, [by])})`,
      help: 'correct the wrong one; every dose depends on it',
    })
  }
  const found: (Found | [])[] = []
  if (area !== undefined && hasRows) {
    const byRows = blockArea({ rows, rowLength: row_length, rowSpacing: row_spacing })
    found.push(against('rows', `${rows} rows of ${figureText(row_length, 'm')} at ${spacing} are`, byRows))
  }
  if (vines !== undefined && (area !== undefined || hasRows)) {
    const byVines = areaOfVines({ vines, rowSpacing: row_spacing, vineSpacing: vine_spacing })
    found.push(
      against('vines', `${vines} vines at ${spacing} by ${figureText(vine_spacing, 'm')} are`, byVines),
    )
  }
  const inside = boundary === undefined ? null : boundaryOf(ledger, boundary)
  const held = inside?.polygons?.reduce((sum, rings) => sum + sphericalArea(rings), 0) ?? 0
  if (inside && held > 0) found.push(against('boundary', 'its outline holds', held))
  else if (inside)
    found.push(
      findingAt(block, ['boundary'], {
        message: `the outline can't be read: ${inside.why ?? 'it encloses no area'}`,
        help: 'use a GeoJSON polygon, longitude before latitude',
      }),
    )
  return found
}

function missing(block: Named<Block>): Found | [] {
  const { missing: gone = 0 } = block
  const { planted } = vinesOf(block)
  if (gone <= planted / 2) return []
  return findingAt(block, ['missing'], {
    level: gone > planted ? 'error' : 'warning',
    message: `${gone} vines are missing, but only ${planted} were planted`,
    help: 'check the count, and rows, length and spacing',
  })
}

/** Rows that the block doesn't have. */
export const moreThanBlock: Rule = {
  name: 'more-than-block',
  what: "An entry names rows or vines that the block doesn't have.",
  limits: "The block's `rows` count.",
  ...OWN_RULE,
  check: (input) => [
    ...judged(input, 'sprays').flatMap((spray) =>
      spray.blocks.flatMap((id) =>
        [beyond(input, spray, spray.rows, id), beyondVines(input, spray, id)].flat(),
      ),
    ),
    ...(['scouting', 'crop', 'work'] as const).flatMap((kind) =>
      judged(input, kind).flatMap((entry) => beyond(input, entry, entry.rows, entry.block)),
    ),
  ],
}

function beyondVines({ ledger }: JudgedLedger, spray: SprayEntry, id: string): Found | [] {
  const block = ledger.blocks.get(id)
  if (!block || spray.vines === undefined) return []
  const { planted } = vinesOf(block)
  if (spray.vines <= planted) return []
  return findingAt(spray, ['vines'], {
    level: 'error',
    message: `${spray.vines} vines, but ${block.name} has ${planted} (${mention(block, block.vines === undefined ? [] : ['vines'])})`,
    help: 'correct the number of vines, or the block',
  })
}

function beyond(
  { ledger }: JudgedLedger,
  entry: Placed<object>,
  rows: Range | undefined,
  id: string,
): Found | [] {
  const block = ledger.blocks.get(id)
  if (!rows || block?.rows === undefined || rows.high <= block.rows) return []
  return findingAt(entry, ['rows'], {
    level: 'error',
    message: `rows ${rows.low}-${rows.high}, but ${block.name} has ${block.rows} (${mention(block, ['rows'])})`,
    help: 'correct the rows, the block, or the number of rows in its record',
  })
}
