import { areaOfVines, blockArea } from '../../agronomy/crop/area.ts'
import { sphericalArea } from '../../agronomy/crop/spherical-area.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import type { JudgedLedger } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { boundaryOf } from '../../ledger/read/boundary.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import { type Found, findingAt, mention, type Rule } from '../rule.ts'

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
  check: (input) =>
    [...input.ledger.blocks.values()].flatMap((block) =>
      [rowsAgainstArea(block), vinesAgainstArea(block), outline(input, block), missing(block)].flat(),
    ),
}

function rowsAgainstArea(block: Named<Block>): Found | [] {
  const { area, rows, row_length, row_spacing } = block
  if (area === undefined || rows === undefined || row_length === undefined) return []
  const byRows = blockArea({ rows, rowLength: row_length, rowSpacing: row_spacing })
  return compare(block, ['area'], {
    area,
    other: byRows,
    share: SHARE,
    what: `${rows} rows of ${figureText(row_length, 'm')} at ${figureText(row_spacing, 'm')} are ${figureText(byRows, 'ha')} (${mention(block, ['rows'])})`,
  })
}

/** The number of vines against the area written, else against that of the rows. */
function vinesAgainstArea(block: Named<Block>): Found | [] {
  const { vines, row_spacing, vine_spacing, area, rows, row_length } = block
  const hasOther = area !== undefined || (rows !== undefined && row_length !== undefined)
  if (vines === undefined || !hasOther) return []
  const byVines = areaOfVines({ vines, rowSpacing: row_spacing, vineSpacing: vine_spacing })
  return compare(block, ['vines'], {
    area: areaOf(block),
    other: byVines,
    share: SHARE,
    what: `${vines} vines at ${figureText(row_spacing, 'm')} by ${figureText(vine_spacing, 'm')} are ${figureText(byVines, 'ha')} (${mention(block, ['vines'])})`,
  })
}

function outline({ ledger }: JudgedLedger, block: Named<Block>): Found | [] {
  const inside = block.boundary === undefined ? null : boundaryOf(ledger, block.boundary)
  if (inside === null) return []
  const held = inside.polygons?.reduce((sum, rings) => sum + sphericalArea(rings), 0)
  if (held === undefined || held <= 0)
    return findingAt(block, ['boundary'], {
      message: `the outline can't be read: ${inside.why ?? 'it encloses no area'}`,
      help: 'use a GeoJSON polygon, longitude before latitude',
    })
  const path = block.area === undefined ? ['boundary'] : ['area']
  return compare(block, path, {
    area: areaOf(block),
    other: held,
    share: BOUNDARY_SHARE,
    what: `its outline holds ${figureText(held, 'ha')} (${mention(block, ['boundary'])})`,
  })
}

function compare(
  block: Named<Block>,
  path: string[],
  { area, other, share, what }: { area: number; other: number; share: number; what: string },
): Found | [] {
  const ratio = Math.max(area / other, other / area)
  if (!exceeds(ratio, 1 + share)) return []
  return findingAt(block, path, {
    level: exceeds(ratio, 2) ? 'error' : 'warning',
    message: `${block.name} is ${figureText(area, 'ha')}, but ${what}`,
    help: 'correct the wrong one; every dose depends on it',
  })
}

function missing(block: Named<Block>): Found | [] {
  const { missing: gone } = block
  if (gone === undefined) return []
  const { planted } = vinesOf(block)
  if (gone <= planted / 2) return []
  return findingAt(block, ['missing'], {
    level: gone > planted ? 'error' : 'warning',
    message: `${gone} vines are missing, but only ${planted} were planted`,
    help: 'check the count, and rows, length and spacing',
  })
}
