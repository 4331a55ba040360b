import { inLedgerUnits } from '../../facts/ledger-units.ts'
import type { Report } from '../../facts/report.ts'
import { numbers, words } from '../../render/columns.ts'
import { figure } from '../../render/figure.ts'
import type { Style } from '../../render/style.ts'
import { renderTable } from '../../render/table.ts'
import { underAnswer, wrap } from '../../render/text.ts'
import type { SugarData } from './report.ts'

/** One reading on every scale, the alcohol that it may give, and where the figures come from. */
export function renderSugar({ data, cautions }: Report<SugarData>, style: Style): string {
  const notes = [
    ...data.remarks,
    ...(data.missing.length > 0 ? [`Missing: ${data.missing.join('; ')}.`] : []),
  ]
  const below = notes
    .map((note) => `${wrap(inLedgerUnits(sentence(note), style.units), style.columns)}\n`)
    .join('')
  if (data.brix === null) return below
  const alcohol = data.potentialAlcohol
  const first =
    alcohol.likely === null
      ? `${span(data, 1)} Brix: too little sugar for the published alcohol formulas.`
      : `${span(data, 1)} Brix is about ${figure(data.sugarPerLitre!.value, 0)} g/L of sugar: about ${figure(alcohol.likely, 1)} % vol if all of it ferments.`
  const rows: [scale: string, value: string, note: string][] = [
    [inLedgerUnits('Brix at 20 °C', style.units), span(data, 2), ''],
    ['specific gravity 20/20', figure(data.specificGravity!, 4), ''],
    ['Oechsle', figure(data.oechsle!, 0), ''],
    ['Baumé', figure(data.baume!, 1), ''],
    ['KMW (Babo)', figure(data.kmw!, 1), ''],
  ]
  if (data.sugarPerLitre) rows.push(['sugar, g/L', figure(data.sugarPerLitre.value, 0), ''])
  if (alcohol.likely !== null)
    rows.push([
      'potential alcohol, % vol',
      figure(alcohol.likely, 1),
      `${figure(alcohol.low!, 1)} to ${figure(alcohol.high!, 1)} by the published methods`,
    ])
  rows.push(['half of Brix, % vol', figure(data.roughAlcohol!, 1), 'a very rough rule, 1 to 2 too low'])
  if (data.brixAcidRatio !== null)
    rows.push([
      'sugar to acid',
      figure(data.brixAcidRatio, 1),
      'Brix / g of acid in 100 mL; 30 to 35 is often wanted',
    ])
  if (data.brixPhSquared !== null)
    rows.push([
      'Brix x pH²',
      figure(data.brixPhSquared, 0),
      'about 200 for white, 260 for red (Coombe et al. 1980)',
    ])
  const table = renderTable(
    rows,
    [words('', ([scale]) => scale), numbers('', ([, value]) => value), words('', ([, , note]) => note, 42)],
    style.columns,
  )
  return underAnswer(`${wrap(first, style.columns)}\n${table}\n${below}`, cautions, style.columns)
}

/** Brix as one figure, or from lowest to highest where the correction leaves a difference that shows. */
function span({ brixLow, brixHigh }: SugarData, digits: number): string {
  const [low, high] = [figure(brixLow!, digits), figure(brixHigh!, digits)]
  return low === high ? low : `${low}-${high}`
}

const sentence = (text: string) => `${text[0]!.toUpperCase()}${text.slice(1)}${/[.!]$/.test(text) ? '' : '.'}`
