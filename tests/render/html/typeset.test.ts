import { expect, test } from 'vitest'
import { typeset } from '../../../src/render/html/typeset.ts'

const NB = '\u00a0'

test.each([
  ['about 1 690 kg', `about 1${NB}690${NB}kg`],
  ['Sun 20 Sep 2026', `Sun${NB}20${NB}Sep${NB}2026`],
  ['230-325 US gal, 3 US fl oz', `230-325${NB}US${NB}gal, 3${NB}US${NB}fl${NB}oz`],
  ['from 12 345 678', `from 12${NB}345${NB}678`],
  ['300 L/ha, 18 °C, 5 %', `300${NB}L/ha, 18${NB}°C, 5${NB}%`],
])('a number stays with its thousands, unit and month: %s', (text, set) => {
  expect(typeset(`<p>${text}</p>`)).toBe(`<p>${set}</p>`)
})

test('words that only begin like a unit, and figures side by side, may break', () => {
  for (const text of ['in 4 blocks', 'found 2 healthy', 'rows 3 2026', 'row 3 and 12 to 20'])
    expect(typeset(`<p>${text}</p>`)).toBe(`<p>${text}</p>`)
})

test('a short range does not break at its hyphen, and a drawing gets no tags', () => {
  expect(typeset('<td>19.3 of 18.5-21</td>')).toBe('<td>19.3 of <span class="whole">18.5-21</span></td>')
  expect(typeset('<svg><text>18.5-21 at 3 kg</text></svg><p>2-3</p>')).toBe(
    `<svg><text>18.5-21 at 3${NB}kg</text></svg><p><span class="whole">2-3</span></p>`,
  )
  for (const text of ['2026-09-14', 'sulphur-80-3', '05-06-2026', '1120-1570 kg'.replace(' ', NB)])
    expect(typeset(`<p>${text}</p>`)).toBe(`<p>${text}</p>`)
})

test('what stands between backticks is code, whose blanks stay as they are typed', () => {
  expect(typeset('<li>Run `rowbook mix --water "300 L/ha"`.</li>')).toBe(
    '<li>Run <code>rowbook mix <span class="whole">--water</span> "300 L/ha"</code>.</li>',
  )
  expect(typeset('<code>--rate 3 kg/ha</code>')).toBe(
    '<code><span class="whole">--rate</span> 3 kg/ha</code>',
  )
})

test('styles, titles and attributes stay as they are', () => {
  const page =
    '<title>A, 14 Sep</title><style>p + p > a { top: 3 s }</style><td data-name="3 kg" title="`a`">-</td>'
  expect(typeset(page)).toBe(page)
})
