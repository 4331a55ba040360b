import type { ReportInput } from '../../facts/report.ts'
import type { Named } from '../../ledger/read/ledger.ts'
import type { Block } from '../../records/block.ts'
import { CONCENTRATION_UNITS, RATE_UNITS } from '../../records/dose-units.ts'
import type { Quantity } from '../../records/quantity.ts'
import type { Sprayer } from '../../records/sprayer.ts'
import type { Canopy } from '../../reports/mix/canopy.ts'
import type { MixJob, MixPart } from '../../reports/mix/job.ts'
import type { Call } from './call.ts'
import { UsageError } from './errors.ts'
import { readOption } from './options.ts'

/** A job as typed, with the blocks and the sprayer of the ledger that it is for. */
export interface TypedMix {
  job: MixJob
  blocks: Named<Block>[]
  sprayer: Named<Sprayer> | null
  rows: { low: number; high: number; unit: string } | undefined
}

/** Reads the options of `mix` into a job. `input` is the ledger where one is used. */
export async function readMixJob(call: Call, input: ReportInput | null): Promise<TypedMix> {
  const typedArea = (await call.quantity('area', ['ha']))?.value
  const blocks = call.texts('block').length > 0 && input ? input.blocks : []
  if (typedArea !== undefined && blocks.length > 0)
    throw new UsageError('--area and --block both say how much to treat', 'take one of them out')
  const rows = await call.range('rows', [''])
  const areas = await blockAreas(blocks, rows)
  const area = typedArea ?? areas.reduce((sum, { area }) => sum + area, 0)
  if (!(area > 0)) throw new UsageError('mix needs the area', 'name it: --area 0.45ha, or --block ID')
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
      parts,
    },
    blocks,
    sprayer,
    rows,
  }
}

async function blockAreas(blocks: readonly Named<Block>[], rows: TypedMix['rows']) {
  const { treatedAreaOf } = await import('../../facts/block-size.ts')
  if (rows && blocks.length !== 1) throw new UsageError('--rows is of one block', 'name one with --block ID')
  return blocks.map((block) => {
    if (rows && block.rows === undefined)
      throw new UsageError(
        `the record of ${block.id} doesn't say how many rows it has`,
        'write `rows` there, or give --area',
      )
    if (rows && rows.high > block.rows!)
      throw new UsageError(`--rows ${rows.low}-${rows.high}: ${block.id} has ${block.rows} rows`)
    return { block, area: treatedAreaOf(rows ? { rows } : {}, block)! }
  })
}

async function sprayerOf(call: Call, input: ReportInput | null): Promise<Named<Sprayer> | null> {
  const id = call.text('sprayer')
  if (!input) return null
  if (id === undefined) return null
  const sprayer = input.ledger.sprayers.get(id)
  if (sprayer) return sprayer
  throw new UsageError(
    `there is no sprayer \`${id}\``,
    `sprayers here: ${[...input.ledger.sprayers.keys()].join(', ') || 'none'}`,
  )
}

async function waterOf(
  call: Call,
  from: {
    area: number
    flow?: number | undefined
    speed?: number | undefined
    width?: number | undefined
    sprayer: Named<Sprayer> | null
  },
): Promise<Pick<MixJob, 'waterPerHa' | 'waterBy'>> {
  const typed = await call.quantity('water', ['L/ha', 'L'])
  if (typed) {
    if (!(typed.value > 0)) throw new UsageError('--water must be more than nothing')
    return { waterPerHa: typed.unit === 'L/ha' ? typed.value : typed.value / from.area, waterBy: 'typed' }
  }
  const { flow, speed, width } = from
  if (flow === undefined || speed === undefined || width === undefined) {
    const lacks =
      from.sprayer &&
      `; the record of ${from.sprayer.id} and the blocks don't give flow, speed and one row spacing`
    throw new UsageError(
      `mix needs the water${lacks ?? ''}`,
      'name it: --water "300 L/ha", or the total --water 135L',
    )
  }
  const { calibratedWater } = await import('../../reports/mix/canopy.ts')
  return { waterPerHa: calibratedWater({ flow, speed, width }), waterBy: 'calibration' }
}

/** The dilute volume in L/ha: as typed for ground, or from litres for a cubic metre of the canopy's row volume. */
async function diluteOf(call: Call, canopy: Canopy): Promise<number | undefined> {
  const typed = await call.quantity('dilute', ['L/ha', 'L/m3'])
  if (!typed || typed.unit === 'L/ha') return typed?.value
  if (canopy.rowVolumePerHa === undefined)
    throw new UsageError(
      '--dilute for a cubic metre needs the row spacing, height and width of the canopy',
      'write them into the block, or give --row-spacing, --canopy-height and --canopy-width',
    )
  const { diluteOfCanopy } = await import('../../reports/mix/canopy.ts')
  return diluteOfCanopy({ rowVolumePerHa: canopy.rowVolumePerHa, litresPerCubicMetre: typed.value })
}

async function stepsOf(call: Call): Promise<MixJob['step']> {
  const texts = call.texts('scale')
  if (texts.length === 0) return undefined
  const step: { kg?: number; L?: number } = {}
  for (const text of texts) {
    const read = await readOption('scale', text, ['kg', 'L'])
    if (!(read.low > 0)) throw new UsageError('--scale must be more than nothing', 'write its step, like 5g')
    step[read.unit as 'kg' | 'L'] = read.low
  }
  return step
}

const DOSE_UNITS = [...RATE_UNITS, ...CONCENTRATION_UNITS, 'kg', 'L']

async function partsOf(call: Call, input: ReportInput | null): Promise<MixPart[]> {
  const wanted = call.texts('for')
  const parts: MixPart[] = []
  for (const [option, text] of [
    ...call.texts('product').map((text) => ['product', text] as const),
    ...call.texts('dose').map((text) => ['dose', text] as const),
  ]) {
    const at = text.indexOf('=')
    const id = (at === -1 ? text : text.slice(0, at)).trim()
    const dose = at === -1 ? '' : text.slice(at + 1).trim()
    if (id === '') throw new UsageError(`--${option} ${text} names no product`, 'write it as name=dose')
    if (parts.some((part) => part.id === id))
      throw new UsageError(`${id} is named twice`, 'give one dose of it')
    const product = input?.ledger.products.get(id) ?? null
    if (option === 'product' && !product)
      throw new UsageError(
        `there is no product \`${id}\``,
        `products here: ${[...(input?.ledger.products.keys() ?? [])].join(', ') || 'none'}; without a record write --dose "${id}=${dose || '3 kg/ha'}"`,
      )
    const named = product
      ? wanted.filter((target) => product.uses.some((use) => use.against === target))
      : wanted
    const targets = wanted.length === 0 ? undefined : named.length > 0 ? named : wanted
    parts.push({ id, product, dose: await doseOf(option, id, dose, { product, targets }), targets })
  }
  if (parts.length === 0)
    throw new UsageError('mix needs what to mix', 'name it: --dose "sulphur=3 kg/ha", or --product ID=RATE')
  return parts
}

/** `--max`: the most for ground area, of the one product or of the one named. */
async function withMost(call: Call, parts: readonly MixPart[]): Promise<MixPart[]> {
  const found = new Map<string, Quantity>()
  for (const text of call.texts('max')) {
    const at = text.indexOf('=')
    const id = at === -1 ? (parts.length === 1 ? parts[0]!.id : '') : text.slice(0, at).trim()
    const part = parts.find((one) => one.id === id)
    if (!part)
      throw new UsageError(
        id === '' ? `--max ${text} names none of the products` : `--max: there is no \`${id}\` in this mix`,
        `write it as "${parts[0]!.id}=5 kg/ha"`,
      )
    const read = await readOption('max', text.slice(at + 1).trim(), ['kg/ha', 'L/ha'])
    if (read.low !== read.high || !(read.low > 0))
      throw new UsageError(`--max ${text}: say one figure, more than nothing`)
    const measured = /^(k?g)\b/.test(part.dose.unit) ? 'kg/ha' : /^m?L\b/.test(part.dose.unit) ? 'L/ha' : null
    if (measured !== null && measured !== read.unit)
      throw new UsageError(
        `--max ${text} is not in the measure of the dose, ${part.dose.unit}`,
        `write it in ${measured}`,
      )
    found.set(id, { value: read.low, unit: read.unit })
  }
  return parts.map((part) => (found.has(part.id) ? { ...part, most: found.get(part.id) } : part))
}

async function doseOf(
  option: string,
  id: string,
  text: string,
  { product, targets }: Pick<MixPart, 'product' | 'targets'>,
): Promise<Quantity> {
  if (text !== '') {
    const read = await readOption(option, text, DOSE_UNITS)
    if (read.low !== read.high) throw new UsageError(`--${option} ${id}: say one dose, not a range`)
    return { value: read.low, unit: read.unit }
  }
  if (!product) throw new UsageError(`--${option} ${id} has no dose`, `write it as "${id}=3 kg/ha"`)
  const { usesFor } = await import('../../facts/spraying/label.ts')
  const ranges = usesFor(product, targets).map(({ use }) => use.rate ?? use.concentration!)
  const [first] = ranges
  if (first && ranges.length === 1 && first.low === first.high) return { value: first.low, unit: first.unit }
  const said = ranges.map(({ low, high, unit }) =>
    low === high ? `${low} ${unit}` : `${low}-${high} ${unit}`,
  )
  throw new UsageError(
    `the label of ${id} leaves the dose open${said.length > 0 ? `: ${said.join(', ')}` : ''}`,
    `say which: --product "${id}=${first ? `${first.high} ${first.unit}` : '3 kg/ha'}"`,
  )
}
