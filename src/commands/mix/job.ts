import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import { findNamed } from '../../records/typed/named.ts'
import type { Canopy, MixJob } from '../../reports/mix/job.ts'
import type { Call } from '../plumbing/call.ts'
import { notOne, UsageError } from '../plumbing/errors.ts'
import { extentOf, treatedBlocks } from './extent.ts'
import { partsOf } from './parts.ts'

/** Reads the options of `mix` into a job. `input` is the ledger where one is used. */
export async function readMixJob(call: Call, input: ReportInput | null): Promise<MixJob> {
  const extent = await extentOf(call)
  const { area, areas, blocks } = await treatedBlocks(call, input, extent)
  const sprayer = await sprayerOf(call, input)
  const { canopyOf } = await import('../../reports/mix/job.ts')
  const canopy = canopyOf(
    {
      rowSpacing: await call.value('row-spacing', 'm'),
      height: await call.value('canopy-height', 'm'),
      width: await call.value('canopy-width', 'm'),
    },
    areas,
  )
  const { rowSpacing, leafWallPerHa, means } = canopy
  const pass = {
    flow: (await call.value('flow', 'L/min')) ?? sprayer?.flow,
    speed: (await call.value('speed', 'km/h')) ?? sprayer?.speed,
    width: rowSpacing === undefined ? undefined : rowSpacing * (sprayer?.rows_per_pass ?? 1),
  }
  return {
    area,
    ...(await waterOf(call, { area, pass, sprayer })),
    spot: extent.spot,
    treated: extent.treated ?? undefined,
    blocks: blocks.map(({ id }) => id),
    sprayer: sprayer?.id,
    dilutePerHa: await diluteOf(call, canopy),
    parts: await partsOf(call, input),
    tank: (await call.value('tank', 'L')) ?? sprayer?.tank ?? null,
    even: call.flag('even'),
    inTank: (await call.value('in-tank', 'L')) ?? 0,
    leafWallPerHa,
    means,
    step: await stepsOf(call),
    ...pass,
    rowLength: alike(blocks.map(({ row_length }) => row_length)),
    vineSpacing: alike(blocks.map(({ vine_spacing }) => vine_spacing)),
  }
}

/** The figure that all share; undefined where they differ or one lacks it. */
const alike = (figures: readonly (number | undefined)[]) =>
  new Set(figures).size === 1 ? figures[0] : undefined

/** The sprayer named; else the only one of the ledger, unless another tank is typed. */
async function sprayerOf(call: Call, input: ReportInput | null): Promise<Named<Sprayer> | null> {
  if (!input) return null
  const said = call.text('sprayer')
  const all = [...input.ledger.sprayers.values()]
  if (said === undefined) {
    const [only] = all
    const tank = await call.value('tank', 'L')
    return only && all.length === 1 && (tank ?? only.tank) === only.tank ? only : null
  }
  const { found, several } = findNamed(said, all)
  if (found) return found
  throw notOne('sprayer', said, { several, all })
}

async function waterOf(
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
): Promise<Pick<MixJob, 'waterPerHa' | 'waterBy' | 'litres'>> {
  const bare = call.text('water')?.trim() ?? ''
  if (/^\d[\d.]*$/.test(bare)) {
    const { units } = await call.style()
    const ways = { metric: ['L', 'ha'], us: ['US gal', 'acre'], imperial: ['imp gal', 'acre'] }
    const [volume, ground] = ways[units]
    throw new UsageError(
      `--water: \`${bare}\` has no unit`,
      `write "${bare} ${volume}" for all of it, or "${bare} ${volume}/${ground}"`,
    )
  }
  const typed = await call.quantity('water', ['L/ha', 'L'])
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
    if (!(read.low > 0)) throw new UsageError('--scale must be above 0', 'write its step, like 5g')
    step[read.unit as 'kg' | 'L'] = read.low
  }
  return step
}
