import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import { findNamed } from '../../records/typed/named.ts'
import type { Canopy } from '../../reports/mix/canopy.ts'
import type { MixJob } from '../../reports/mix/job.ts'
import type { Call } from '../plumbing/call.ts'
import { UsageError } from '../plumbing/errors.ts'
import { extentOf, treatedBlocks } from './extent.ts'
import { partsOf, withMost } from './parts.ts'

/** The job as typed, with its blocks and its sprayer from the ledger. */
export interface TypedMix {
  job: MixJob
  blocks: Named<Block>[]
  sprayer: Named<Sprayer> | null
}

/** Reads the options of `mix` into a job. `input` is the ledger where one is used. */
export async function readMixJob(call: Call, input: ReportInput | null): Promise<TypedMix> {
  const extent = await extentOf(call)
  const { area, areas, blocks } = await treatedBlocks(call, input, extent)
  const sprayer = await sprayerOf(call, input)
  const { canopyOf } = await import('../../reports/mix/canopy.ts')
  const canopy = canopyOf(
    {
      rowSpacing: (await call.quantity('row-spacing', ['m']))?.value,
      height: (await call.quantity('canopy-height', ['m']))?.value,
      width: (await call.quantity('canopy-width', ['m']))?.value,
    },
    areas,
  )
  const flow = (await call.quantity('flow', ['L/min']))?.value ?? sprayer?.flow
  const speed = (await call.quantity('speed', ['km/h']))?.value ?? sprayer?.speed
  const width =
    canopy.rowSpacing === undefined ? undefined : canopy.rowSpacing * (sprayer?.rows_per_pass ?? 1)
  const water = await waterOf(call, { area, flow, speed, width, sprayer })
  const dilute = await diluteOf(call, canopy)
  const parts = await withMost(call, await partsOf(call, input))
  return {
    job: {
      area,
      ...water,
      spot: extent.spot,
      ...(extent.treated ? { treated: extent.treated } : {}),
      blocks: blocks.map(({ id }) => id),
      ...(sprayer ? { sprayer: sprayer.id } : {}),
      tank: (await call.quantity('tank', ['L']))?.value ?? sprayer?.tank ?? null,
      even: call.flag('even'),
      inTank: (await call.quantity('in-tank', ['L']))?.value ?? 0,
      dilutePerHa: dilute,
      leafWallPerHa: canopy.leafWallPerHa,
      means: canopy.means,
      step: await stepsOf(call),
      flow,
      speed,
      width,
      rowLength: alike(blocks.map(({ row_length }) => row_length)),
      vineSpacing: alike(blocks.map(({ vine_spacing }) => vine_spacing)),
      parts,
    },
    blocks,
    sprayer,
  }
}

/** The figure that all share; undefined where they differ or one lacks it. */
const alike = (figures: readonly (number | undefined)[]) =>
  new Set(figures).size === 1 ? figures[0] : undefined

/** The sprayer named; else the only one of the ledger, unless another tank is typed. */
async function sprayerOf(call: Call, input: ReportInput | null): Promise<Named<Sprayer> | null> {
  const said = call.text('sprayer')
  if (!input) return null
  const all = [...input.ledger.sprayers.values()]
  if (said === undefined) {
    const [only] = all
    const tank = (await call.quantity('tank', ['L']))?.value
    return only && all.length === 1 && (tank ?? only.tank) === only.tank ? only : null
  }
  const { found, several } = findNamed(said, all)
  if (found) return found
  throw new UsageError(
    several.length > 1 ? `\`${said}\` fits ${several.length} sprayers` : `there is no sprayer \`${said}\``,
    `sprayers here: ${all.map(({ id }) => id).join(', ') || 'none'}`,
  )
}

async function waterOf(
  call: Call,
  from: {
    area: number | null
    flow?: number | undefined
    speed?: number | undefined
    width?: number | undefined
    sprayer: Named<Sprayer> | null
  },
): Promise<Pick<MixJob, 'waterPerHa' | 'waterBy' | 'litres'>> {
  const { area, flow, speed, width, sprayer } = from
  const bare = call.text('water')?.trim() ?? ''
  if (/^\d[\d.]*$/.test(bare)) {
    const { units } = await call.style()
    const [volume, ground] = { metric: ['L', 'ha'], us: ['US gal', 'acre'], imperial: ['imp gal', 'acre'] }[
      units
    ]
    throw new UsageError(
      `--water: \`${bare}\` has no unit`,
      `write "${bare} ${volume}" for all of it, or "${bare} ${volume}/${ground}"`,
    )
  }
  const typed = await call.quantity('water', ['L/ha', 'L'])
  if (typed && !(typed.value > 0)) throw new UsageError('--water must be more than nothing')
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
  const { volumePerHectare } = await import('../../agronomy/spraying/calibration.ts')
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
async function diluteOf(call: Call, canopy: Canopy): Promise<number | undefined> {
  const typed = await call.quantity('dilute', ['L/ha', 'L/m3'])
  if (!typed || typed.unit === 'L/ha') return typed?.value
  if (canopy.rowVolumePerHa === undefined)
    throw new UsageError(
      '--dilute for a cubic metre needs the row spacing, height and width of the canopy',
      'write them into the block, or give --row-spacing, --canopy-height and --canopy-width',
    )
  const { diluteFromRowVolume } = await import('../../agronomy/spraying/canopy.ts')
  return diluteFromRowVolume({ rowVolumePerHa: canopy.rowVolumePerHa, litresPerCubicMetre: typed.value })
}

async function stepsOf(call: Call): Promise<MixJob['step']> {
  const texts = call.texts('scale')
  if (texts.length === 0) return undefined
  const step: { kg?: number; L?: number } = {}
  for (const text of texts) {
    const read = await call.read('scale', text, ['kg', 'L'])
    if (!(read.low > 0)) throw new UsageError('--scale must be more than nothing', 'write its step, like 5g')
    step[read.unit as 'kg' | 'L'] = read.low
  }
  return step
}
