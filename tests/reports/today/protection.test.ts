import { expect, test } from 'vitest'
import { coverWord } from '../../../src/render/disease-words.ts'
import { cover } from '../../../src/reports/cover/report.ts'
import { today } from '../../../src/reports/today/report.ts'
import { inputOf, STAGES, stage, WALKS, WEATHER, walk, weather } from '../../facts/danger/book.ts'

const AS_OF = '2026-06-18'
const GROWN = {
  [STAGES]: stage('2026-06-01', 57) + stage('2026-06-12', 65),
  [WEATHER]: weather(undefined, AS_OF),
}

/** What `cover` and `today` say of the block Upper after a spray of some of it. */
function saidBoth(extent: string) {
  const sprays = `- { date: 2026-06-16, time: 18:00-19:00, blocks: [upper], ${extent}, products: [ { product: sulphur, concentration: 10 g/L, for: powdery } ] }\n`
  const input = inputOf({ ...GROWN, 'seasons/2026/sprays.yaml': sprays }, AS_OF)
  const [upper] = cover(input, {}).data.blocks.filter(({ block }) => block === 'upper')
  const items = today(input).data.items.filter((item) => item.disease === 'powdery' && item.block === 'upper')
  return {
    word: coverWord(upper!.days.at(-1)!, upper!.needed),
    text: items.map(({ text }) => text).join(' '),
  }
}

test.each([
  ['rows: 3-6, water: 400 L/ha', 'rows 3 to 6 until'],
  ['share: 25 %, water: 400 L/ha', '25 % until'],
  ['method: spot, water: 3 L', 'spots until'],
  ['method: spot, vines: 100, water: 10 L', '5 % until'],
])('after a spray of %s, today and cover both speak of protection in part', (extent, part) => {
  const { word, text } = saidBoth(extent)
  expect(word).toBe('in part')
  expect(text).toContain(`Upper protected in part only (${part}`)
})

test('after a spray of the whole neither does', () => {
  const { word, text } = saidBoth('water: 400 L/ha')
  expect(word).toBe('covered')
  expect(text).not.toContain('in part')
})

test('products that do not go into one tank each get their command after a find', () => {
  const oil =
    'name: Leaf oil\nform: EC\nkind: fungicide\nactives: [ { name: mineral oil } ]\nuses: [ { against: powdery, rate: 5-10 L/ha } ]\nre_entry: 12 h\nbefore_harvest: 1 d\n'
  const found = { [WALKS]: walk('2026-06-17', 'powdery: { bunches: 12 }, downy: { leaves: 6 }') }
  const files = { ...GROWN, ...found, 'products/oil.yaml': oil, 'products/sulphur.yaml': null }
  const [first] = today(inputOf(files, AS_OF)).data.items
  expect(first!.text).toContain('not in one tank')
  const mixes = [first!.next, ...first!.also]
  expect(mixes).toEqual([
    expect.stringMatching(/^rowbook mix --block upper --product "oil=10 L\/ha"/),
    expect.stringMatching(/^rowbook mix --block upper --product "copper=2 kg\/ha"/),
  ])
})
