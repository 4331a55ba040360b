import type { ProtectionKind } from '../../facts/charts/day-chart.ts'
import { html, type Markup } from '../html/markup.ts'
import { at } from './canvas.ts'

export const PROTECTION_KINDS: readonly ProtectionKind[] = [
  'protected',
  'protected in part',
  'unprotected',
  'not known',
]

const BAR_HEIGHT = 9

/** A span of days by its protection; each kind has its own shape, so that they differ without colour. */
export function drawProtection(
  kind: ProtectionKind,
  { x, y, width }: { x: number; y: number; width: number },
  title: string,
): Markup {
  return html`<g><title>${title}</title>${shape(kind, x, y, width)}</g>
`
}

function shape(kind: ProtectionKind, x: number, y: number, width: number): Markup {
  const box = html`x="${x}" y="${y}" width="${width}" height="${BAR_HEIGHT}"`
  switch (kind) {
    case 'protected':
      return html`<rect class="fill-first" ${box}/>`
    case 'protected in part':
      // The lower half filled, the upper empty.
      return html`<rect class="outline first" ${box}/><rect class="fill-first" x="${x}" y="${y + BAR_HEIGHT / 2}" width="${width}" height="${BAR_HEIGHT / 2}"/>`
    case 'unprotected':
      return html`<rect class="outline bad-line" ${box}/><path class="line thin bad-line" d="${strokes(x, y, width)}"/>`
    case 'not known':
      return html`<line class="line dotted quiet-line" x1="${x}" x2="${at(x + width)}" y1="${y + BAR_HEIGHT / 2}" y2="${y + BAR_HEIGHT / 2}"/>`
  }
}

/** Slanted strokes across a bar; a bar too narrow for one is crossed from corner to corner. */
function strokes(x: number, y: number, width: number): string {
  const [slant, every] = [Math.min(5, width), 5]
  const count = Math.max(1, Math.floor((width - slant) / every) + 1)
  return Array.from({ length: count }, (_, index) => {
    const left = at(x + index * every)
    return `M${left} ${y + BAR_HEIGHT}L${at(left + slant)} ${y}`
  }).join('')
}
