import type { ProtectionKind } from '../../facts/charts/day-chart.ts'
import { html, type Markup } from '../html/markup.ts'
import type { Canvas } from './canvas.ts'
import { shorten, textWidth } from './letters.ts'
import { drawProtection } from './protection-bar.ts'

export interface LegendEntry {
  shape: 'line' | 'dashes' | 'area' | 'mark' | 'bar' | 'dot' | 'band' | 'hollow' | 'protection'
  /** Class of the stroke or fill; the kind where the shape is a bar of protection. */
  role: string
  text: string
}

const SWATCH = 24
const GAP = 18
const ROW = 18

/** What the lines and shapes of a drawing mean, in rows across its width; entries that are false are left out. */
export function legend(
  canvas: Canvas,
  all: readonly (LegendEntry | false | undefined)[],
): { content: Markup; height: number } {
  const entries = all.filter((entry): entry is LegendEntry => !!entry)
  let x = canvas.left
  let y = 12
  const drawn = entries.map((entry) => {
    const text = shorten(entry.text, canvas.width - canvas.left - SWATCH)
    const width = SWATCH + textWidth(text) + GAP
    if (x > canvas.left && x + width > canvas.width + GAP) {
      x = canvas.left
      y += ROW
    }
    const at = x
    x += width
    return html`${swatch(entry, at, y - 4)}<text x="${at + SWATCH}" y="${y}">${text}</text>
`
  })
  return { content: html`${drawn}`, height: entries.length === 0 ? 0 : y + 8 }
}

function swatch({ shape, role }: LegendEntry, x: number, y: number): Markup {
  switch (shape) {
    case 'line':
    case 'dashes':
      return html`<line class="line ${role}${shape === 'dashes' ? ' dashed' : ''}" x1="${x}" x2="${x + 18}" y1="${y}" y2="${y}"/>`
    case 'dot':
      return html`<circle class="hollow ${role}" cx="${x + 9}" cy="${y}" r="3.5"/>`
    case 'mark':
      return html`<path class="${role}" d="M${x + 5} ${y - 4}h8l-4 7z"/>`
    case 'bar':
      return html`<rect class="${role}" x="${x}" y="${y - 4}" width="18" height="7"/>`
    case 'hollow':
      return html`<rect class="outline ${role}" x="${x + 0.5}" y="${y - 5.5}" width="17" height="10"/>`
    case 'protection':
      return drawProtection(role as ProtectionKind, { x, y: y - 5, width: 18 }, role)
    default:
      return html`<rect class="${role}" x="${x}" y="${y - 6}" width="18" height="11"/>`
  }
}
