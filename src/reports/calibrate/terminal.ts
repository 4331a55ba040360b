import type { Report } from '../../facts/report.ts'
import { listed } from '../../facts/sentences.ts'
import { numbers, words } from '../../render/columns.ts'
import { signed } from '../../render/figure.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { sentences, underAnswer, wrap, wrapAll } from '../../render/text.ts'
import { display } from '../../render/units.ts'
import type { CalibrateData } from './report.ts'

/** A calibration: what the sprayer applies, what is wanted, the nozzles, and the record to keep. */
export function renderCalibrate(
  report: Report<CalibrateData>,
  style: Style,
  record: { text: string; said: string } | null = null,
): string {
  const { data } = report
  const parts = sentences(
    `${wrap(answer(data, style), style.columns)}\n`,
    nozzleTable(data, style),
    wantedLines(data, style),
    savedLines(data, style),
    record && `${wrap(record.said, style.columns)}\n\n${safe(record.text)}`,
  )
  return underAnswer(parts.join('\n'), report.cautions, style.columns)
}

function answer(data: CalibrateData, style: Style): string {
  const { volumePerHa, method, flow, speed, rowSpacing, plot, course, missing } = data
  const { units, paint } = style
  const walk = course ? ` For this width the 1/128-acre course is ${display(course, units)} long.` : ''
  const needed = data.wanted?.flowNeeded
  if (!volumePerHa && needed)
    return `${paint.strong(`${display(needed, units)} in all`)} gives ${display(data.wanted!.volumePerHa, units)} at ${display(speed!, units)} over ${display(rowSpacing!, units)}.${walk}`
  if (!volumePerHa && flow)
    return `${paint.strong(`${display(flow, units)} in all.`)} The rate per area also needs ${listed(missing)}.${walk}`
  if (!volumePerHa) return `The rate per area also needs ${listed(missing)}.${walk}`
  const how =
    method === 'area'
      ? `by what was sprayed on ${display(plot!, units)}`
      : `from ${display(flow!, units)} at ${display(speed!, units)} over ${display(rowSpacing!, units)}`
  return `${paint.strong(display(volumePerHa, units))}, ${how}.${walk}${paceText(data, units)}`
}

/** Changes to an existing record, old and new. */
function savedLines({ saved, changes }: CalibrateData, { paint }: Style): string {
  if (saved === null || changes.length === 0) return ''
  const lines = changes.flatMap(({ key, before, now }) => [
    ...(before === null ? [] : [`  was  ${key}: ${safe(before)}`]),
    paint.strong(`  now  ${key}: ${safe(now)}`),
  ])
  return `Saved in ${safe(saved)}:\n${lines.join('\n')}\n`
}

/** Further results of a plot and a tank: flow, pace, area per tank. */
function paceText(
  { method, flow, speed, tankCovers, plot128 }: CalibrateData,
  units: Style['units'],
): string {
  const said = sentences(
    plot128 && method === 'area' && 'US fl oz caught on 1/128 acre equal US gal/acre.',
    method === 'area' && flow && `The flow is ${display(flow, units)}.`,
    method === 'area' && speed && `You walked at ${display(speed, units)}.`,
    tankCovers && `A full tank is enough for ${display(tankCovers, units)}.`,
  )
  return said.map((sentence) => ` ${sentence}`).join('')
}

function nozzleTable(
  { nozzles, nozzleMean, nozzleTolerance }: CalibrateData,
  { units, paint, columns }: Style,
): string {
  if (nozzles.length === 0) return ''
  const table = renderTable(
    nozzles,
    [
      numbers('nozzle', (_, index) => index + 1),
      numbers('flow', ({ flow }) => display(flow, units)),
      numbers('off the mean', ({ deviation }) => `${signed(deviation * 100, 1)} %`),
      words('', ({ ok }) => (ok ? 'keep' : paint.bad('replace'))),
    ],
    columns,
  )
  const bad = nozzles.flatMap(({ ok }, index) => (ok ? [] : [index + 1]))
  const share = Number((nozzleTolerance * 100).toPrecision(3))
  const says =
    bad.length === 0
      ? `${nozzles.length === 1 ? 'The nozzle is' : nozzles.length === 2 ? 'Both nozzles are' : `All ${nozzles.length} nozzles are`} within ${share} % of the mean, ${display(nozzleMean!, units)}.`
      : `${bad.length === 1 ? 'Nozzle' : 'Nozzles'} ${listed(bad.map(String))} ${bad.length === 1 ? 'is' : 'are'} more than ${share} % off the mean, ${display(nozzleMean!, units)}. Clean and measure again, or replace.`
  return `${table}\n${says}\n`
}

function wantedLines({ wanted }: CalibrateData, { units, columns }: Style): string {
  if (!wanted || wanted.deviation === null) return ''
  const { volumePerHa, deviation, ok, tolerance, flowNeeded, perNozzle, speedNeeded, pressureNeeded } = wanted
  const off = `${Math.abs(deviation * 100).toFixed(1)} % ${deviation < 0 ? 'below' : 'above'}`
  const limit = `${Number((tolerance * 100).toPrecision(3))} %`
  const ways = sentences(
    flowNeeded &&
      `a flow of ${display(flowNeeded, units)} in all${perNozzle ? ` (${display(perNozzle, units)} a nozzle)` : ''}`,
    pressureNeeded && `a pressure of ${display(pressureNeeded, units)} with these nozzles`,
    speedNeeded && !ok && `a speed of ${display(speedNeeded, units)} at this flow`,
  )
  const lines = sentences(
    ok
      ? `That is within ${limit} of the wanted ${display(volumePerHa, units)}.`
      : `That is ${off} the wanted ${display(volumePerHa, units)} (limit ${limit}).`,
    ways.length > 0 && `For ${display(volumePerHa, units)}: ${ways.join(', or ')}.`,
  )
  return `${wrapAll(lines, columns)}\n`
}
