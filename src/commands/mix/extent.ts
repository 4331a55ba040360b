import { treatedAreaOf } from '../../facts/block-size.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import { extentFields, type Treated } from '../../reports/mix/job.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'

/** How much of the blocks to treat: the values of `--spot`, `--rows`, `--vines` and `--share`. */
interface Extent {
  spot: boolean
  /** The part to treat, and the option that says so; null where none was typed. */
  treated: Treated | null
  option: string
}

/** How much of the blocks to treat, as typed. @throws UsageError where it is typed twice or isn't possible. */
export function extentOf(call: Call): Extent {
  const rows = call.range('rows', [''])
  const vines = call.whole('vines', 1, 1_000_000)
  const percent = call.value('share', '%')
  const named = ['rows', 'vines', 'share'].filter((name) => call.text(name) !== undefined)
  if (named.length > 1)
    throw new UsageError(
      `the area to treat is given twice: --${named.join(' and --')}`,
      'write one of --rows, --vines or --share',
    )
  if (rows && !(Number.isInteger(rows.low) && Number.isInteger(rows.high) && rows.low >= 1))
    throw new UsageError(
      `--rows ${call.text('rows')}: rows are counted from 1`,
      'write them as --rows 3, or --rows 3-5',
    )
  if (percent !== undefined && !(percent > 0 && percent <= 100))
    throw new UsageError(`--share ${call.text('share')} is no share of a block`, 'write it as --share "25 %"')
  const [option = ''] = named
  const treated = {
    rows: rows ? { low: rows.low, high: rows.high } : null,
    vines: vines ?? null,
    share: percent === undefined ? null : percent / 100,
  }
  return { spot: call.flag('spot'), treated: option ? treated : null, option }
}

/** The blocks to treat, with the area treated in each and in all; `area` is null where it isn't known. */
export function treatedBlocks(call: Call, input: ReportInput | null, extent: Extent) {
  const area = call.above('area', 'ha') ?? null
  const isNamed = call.texts('block').length > 0
  if (area !== null && isNamed)
    throw new UsageError('--area and --block both say how much to treat', 'take one of them out')
  // With a part but no block named, the only block of the ledger.
  const isMeant = isNamed || (area === null && extent.treated !== null && input?.blocks.length === 1)
  const blocks = (isMeant && input?.blocks) || []
  if (extent.treated) refuseUnfit(blocks, extent, area !== null)
  if (area !== null) return { area, areas: [], blocks: [] }
  const areas = blocks.flatMap((block) => {
    const own = treatedAreaOf(extentFields(extent), block)
    return own === null ? [] : [{ block, area: own }]
  })
  const isKnown = blocks.length > 0 && areas.length === blocks.length
  return { area: isKnown ? areas.reduce((sum, one) => sum + one.area, 0) : null, areas, blocks }
}

function refuseUnfit(
  blocks: readonly Named<Block>[],
  { spot, treated, option }: Extent,
  hasArea: boolean,
): void {
  const { rows, vines } = treated!
  if (hasArea) throw new UsageError(`--${option} is of a block, not of --area`, 'name the block: --block ID')
  if (blocks.length === 0 && !(spot && vines))
    throw new UsageError(`--${option} is of one block`, 'name it with --block ID')
  if (blocks.length > 1 && option !== 'share')
    throw new UsageError(`--${option} is of one block`, 'name one with --block ID')
  const [block] = blocks
  if (!rows || !block) return
  if (block.rows === undefined)
    throw new UsageError(
      `the record of ${block.id} doesn't say how many rows it has`,
      'write `rows` there, or say --vines or --share',
    )
  if (rows.high > block.rows)
    throw new UsageError(
      `--rows ${rows.low}-${rows.high}: ${block.id} has ${block.rows} rows`,
      `write rows from 1 to ${block.rows}`,
    )
}
