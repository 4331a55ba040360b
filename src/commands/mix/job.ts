import { volumePerHectare } from '../../agronomy/spraying/calibration.ts'
import { diluteFromRowVolume } from '../../agronomy/spraying/canopy.ts'
import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import { findNamed } from '../../records/typed/named.ts'
import { type Canopy, canopyOf, type MixJob } from '../../reports/mix/job.ts'
import type { Call } from '../plumbing/call.ts'
import { notOne, UsageError } from '../plumbing/errors.ts'
import { extentOf, treatedBlocks } from './extent.ts'
import { partsOf } from './parts.ts'

/** Reads the options of `mix` into a job. `input` is the ledger where one is used. */
export function readMixJob(call: Call, input: ReportInput | null): MixJob {
  const extent = extentOf(call)
  const { area, areas, blocks } = treatedBlocks(call, input, extent)
  const sprayer = sprayerOf(call, input)
  const canopy = canopyOf(
    {
      rowSpacing: call.value('row-spacing', 'm'),
      height: call.value('canopy-height', 'm'),
      width: call.value('canopy-width', 'm'),
    },
    areas,
  )
  const { rowSpacing, leafWallPerHa, means } = canopy
  const pass = {
    flow: call.value('flow', 'L/min') ?? sprayer?.flow,
    speed: call.value('speed', 'km/h') ?? sprayer?.speed,
    width: rowSpacing === undefined ? undefined : rowSpacing * (sprayer?.rows_per_pass ?? 1),
  }
  return {
    area,
    ...waterOf(call, { area, pass, sprayer }),
    spot: extent.spot,
    treated: extent.treated ?? undefined,
    blocks: blocks.map(({ id }) => id),
    sprayer: sprayer?.id,
    dilutePerHa: diluteOf(call, canopy),
    parts: partsOf(call, input),
    tank: call.value('tank', 'L') ?? sprayer?.tank ?? null,
    even: call.flag('even'),
    inTank: call.value('in-tank', 'L') ?? 0,
    leafWallPerHa,
    means,
    step: stepsOf(call),
    ...pass,
    rowLength: alike(blocks.map(({ row_length }) => row_length)),
    vineSpacing: alike(blocks.map(({ vine_spacing }) => vine_spacing)),
  }
}

/** The figure that all share; undefined where they differ or one lacks it. */
const alike = (figures: readonly (number | undefined)[]) =>
  new Set(figures).size === 1 ? figures[0] : undefined

/** The sprayer named; else the only one of the ledger, unless another tank is typed. */
function sprayerOf(call: Call, input: ReportInput | null): Named<Sprayer> | null {
  if (!input) return null
  const said = call.text('sprayer')
  const all = [...input.ledger.sprayers.values()]
  if (said === undefined) {
    const [only] = all
    const tank = call.value('tank', 'L')
    return only && all.length === 1 && (tank ?? only.tank) === only.tank ? only : null
  }
  const { found, several } = findNamed(said, all)
  if (found) return found
  throw notOne('sprayer', said, { several, all })
}

function waterOf(
  call: Call,
  {
    area,
    pass: { flow, speed, width },
    sprayer,
  }: {
    area: number | null
    pass: Pick<MixJob, 'flow' | 'speed' | 'width'>
    sprayer: Named<Sprayer> | null
  },
): Pick<MixJob, 'waterPerHa' | 'waterBy' | 'litres'> {
  const bare = call.text('water')?.trim() ?? ''
  if (/^\d[\d.]*$/.test(bare)) {
    const { units } = call.style()
    const ways = { metric: ['L', 'ha'], us: ['US gal', 'acre'], imperial: ['imp gal', 'acre'] }
    const [volume, ground] = ways[units]
    throw new UsageError(
      `--water: \`${bare}\` has no unit`,
      `write "${bare} ${volume}" for all of it, or "${bare} ${volume}/${ground}"`,
    )
  }
  const typed = call.quantity('water', ['L/ha', 'L'])
  if (typed && !(typed.value > 0)) throw new UsageError('--water must be above 0')
  if (typed?.unit === 'L')
    return area === null
      ? { waterPerHa: null, litres: typed.value, waterBy: 'typed' }
      : { waterPerHa: typed.value / area, waterBy: 'typed' }
  if (area === null) throw needsLitres(call, typed !== undefined)
  if (typed) return { waterPerHa: typed.value, waterBy: 'typed' }
  const isTyped = call.text('flow') !== undefined || call.text('speed') !== undefined
  if (sprayer?.water !== undefined && !isTyped)
    return { waterPerHa: asMeasured(sprayer.water * area) / area, waterBy: 'calibration' }
  if (flow === undefined || speed === undefined || width === undefined) {
    const lacks =
      sprayer && `; the record of ${sprayer.id} and the blocks don't give flow, speed and one row spacing`
    throw new UsageError(
      `mix needs the water${lacks ?? ''}`,
      'name it: --water "300 L/ha", or the total --water 135L',
    )
  }
  return { waterPerHa: volumePerHectare({ flow, speed, width }), waterBy: 'calibration' }
}

/** Litres from a measured rate, rounded to tenths so that no last fill of a few drops is left. */
const asMeasured = (litres: number) => Math.round(litres * 10) / 10 || litres

/** The error where neither the area nor the litres in all are known. */
function needsLitres(call: Call, isPerHa: boolean): UsageError {
  if (isPerHa)
    return new UsageError(
      '--water for a hectare needs the area',
      'name it with --block ID or --area 0.45ha, or say the spray in all: --water 12L',
    )
  if (call.flag('spot')) return new UsageError('the amount of spray is missing', 'write it: --water 3L')
  return new UsageError(
    'the area is missing, or the water for the whole spray',
    'write --water 12L for one fill, or name --block ID or --area 0.45ha',
  )
}

/** The dilute volume in L/ha: as typed, or calculated from litres per cubic metre of the canopy's row volume. */
function diluteOf(call: Call, canopy: Canopy): number | undefined {
  const typed = call.quantity('dilute', ['L/ha', 'L/m3'])
  if (!typed || typed.unit === 'L/ha') return typed?.value
  if (canopy.rowVolumePerHa === undefined)
    throw new UsageError(
      '--dilute for a cubic metre needs the row spacing, height and width of the canopy',
      'write them into the block, or give --row-spacing, --canopy-height and --canopy-width',
    )
  return diluteFromRowVolume({ rowVolumePerHa: canopy.rowVolumePerHa, litresPerCubicMetre: typed.value })
}

function stepsOf(call: Call): MixJob['step'] {
  const texts = call.texts('scale')
  if (texts.length === 0) return undefined
  const step: { kg?: number; L?: number } = {}
  for (const text of texts) {
    const read = call.read('scale', text, ['kg', 'L'])
    if (!(read.low > 0)) throw new UsageError('--scale must be above 0', 'write its step, like 5g')
    step[read.unit as 'kg' | 'L'] = read.low
  }
  return step
}
