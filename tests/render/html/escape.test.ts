import fc from 'fast-check'
import { type DefaultTreeAdapterTypes, parse, parseFragment } from 'parse5'
import { describe, expect, test } from 'vitest'
import { renderPage } from '../../../src/commands/plumbing/pages.ts'
import type { ReportInput } from '../../../src/facts/report.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { html } from '../../../src/render/html/markup.ts'
import { safe } from '../../../src/render/safe.ts'
import { page as windowPage } from '../../../src/reports/window/page.ts'
import { window } from '../../../src/reports/window/report.ts'
import { runHere } from '../../faults/in-process.ts'
import { makeLedger } from '../../ledger/make.ts'

type Node = DefaultTreeAdapterTypes.ChildNode
type Element = DefaultTreeAdapterTypes.Element

const HOSTILE = [
  '</script><script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onload='alert(1)",
  '</title><style>*{display:none}</style>',
  '<!-- -->',
  '&lt;b&gt; &amp;',
  '=cmd()',
  '<svg onload=alert(1)>',
]

describe('what is put into a page', () => {
  const anyText = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.string({ unit: 'binary' }),
    fc.constantFrom(...HOSTILE),
  )

  test('is read back as the same text by another parser, in text and in an attribute', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const made = parseFragment(html`<p title="${text}">${text}</p>`.text)
        const [p, ...rest] = made.childNodes
        expect(rest).toEqual([])
        const element = p as Element
        expect(element.tagName).toBe('p')
        expect(element.attrs).toHaveLength(1)
        expect(element.childNodes.every((node) => node.nodeName === '#text')).toBe(true)
        const shown = safe(text)
        expect(element.attrs[0]!.value).toBe(shown)
        const inside = element.childNodes[0] as DefaultTreeAdapterTypes.TextNode | undefined
        expect(inside?.value ?? '').toBe(shown)
      }),
      { numRuns: 500 },
    )
  })
})

const TAGS = new Set(
  'html head meta link title style body main header footer section nav h1 h2 h3 p ul li a table caption thead tbody tr th td div span figure figcaption details summary time svg desc g line path rect circle text code'.split(
    ' ',
  ),
)

function elementsOf(node: { childNodes?: Node[] }): Element[] {
  return (node.childNodes ?? []).flatMap((child) => ('tagName' in child ? [child, ...elementsOf(child)] : []))
}

function hostileLedger(text: string): ReportInput {
  const quoted = JSON.stringify(text)
  const root = makeLedger({
    'vineyard.yaml': `name: ${quoted}\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n`,
    'blocks/upper.yaml': `name: ${quoted}\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\ntargets: { brix: 20-22 }\n`,
    'products/sulphur.yaml': `name: ${quoted}\nform: WG\nkind: fungicide\nactives: [ { name: ${quoted}, content: 800 g/kg, group: M02 } ]\nuses: [ { against: powdery, rate: 2-6 kg/ha } ]\nbefore_harvest: 21 d\nre_entry: 24 h\n`,
    'seasons/2026/sprays/a.yaml': `- { date: 2026-06-01, blocks: upper, products: [ { product: sulphur, rate: 3 kg/ha, for: ${quoted} } ], note: ${quoted} }\n`,
    'seasons/2026/samples/a.yaml': `- { date: 2026-08-20, block: upper, brix: [14, 15, 16], seeds: ${quoted}, taste: ${quoted} }\n- { date: 2026-08-27, block: upper, brix: [15, 16, 17] }\n- { date: 2026-09-03, block: upper, brix: [17, 18, 18] }\n`,
    'seasons/2026/scouting/a.yaml': `- { date: 2026-07-01, block: upper, looked_at: { bunches: 50 }, found: { powdery: { bunches: 2, rows: 3-4, where: ${quoted} } } }\n`,
  })
  const ledger = openLedger(root, { seasons: [2026] })
  expect(ledger.findings).toEqual([])
  return { ledger, season: 2026, asOf: '2026-09-05', blocks: [...ledger.blocks.values()] }
}

async function pagesOf(input: ReportInput): Promise<string[]> {
  const { ledger } = input
  const request = { printed: `${ledger.vineyard.name}\n`, ledger, units: 'metric' } as const
  const line = ['season', '--html', '-', '--as-of', input.asOf, '--ledger', ledger.root]
  return [renderPage(window(input), { ...request, page: windowPage }), (await runHere(line)).out]
}

describe('a page made of a hostile ledger', () => {
  test.each(HOSTILE)('holds no element of its making: %s', async (text) => {
    const input = hostileLedger(text)
    for (const page of await pagesOf(input)) {
      const elements = elementsOf(parse(page))
      expect(elements.filter(({ tagName }) => !TAGS.has(tagName)).map(({ tagName }) => tagName)).toEqual([])
      const attributes = elements.flatMap(({ attrs }) => attrs)
      expect(attributes.filter(({ name }) => /^on|^src$|^style$|^action$/.test(name))).toEqual([])
      expect(attributes.filter(({ name, value }) => name === 'href' && !/^(#|data:,$)/.test(value))).toEqual(
        [],
      )
      const ids = attributes.filter(({ name }) => name === 'id').map(({ value }) => value)
      expect(new Set(ids).size).toBe(ids.length)
      expect(page).toContain(html`${safe(text)}`.text)
      expect(elements.filter(({ tagName }) => tagName === 'style')).toHaveLength(1)
    }
  })
})
