import { expect, test } from 'vitest'
import { today } from '../../../src/reports/today/report.ts'
import { type Files, inputOf, STAGES, stage, WEATHER, weather } from '../../facts/danger/book.ts'

const AS_OF = '2026-06-20'

/** Wet for 16 hours on the day before, in bloom: downy may have infected vines that nothing protected. */
const INFECTED = {
  [STAGES]: stage('2026-06-05', 57) + stage('2026-06-14', 65),
  [WEATHER]: weather(
    (date, hour) =>
      date === '2026-06-19' && hour >= 2 && hour < 18 ? { warm: 16, humid: 99, wet: 60, rain: 1 } : {},
    AS_OF,
  ),
}

const cure = (more: string) => ({
  'products/cure.yaml': `name: Cure\nform: WG\nkind: fungicide\nactives: [ { name: cymoxanil, group: 27 } ]\nuses: [ { against: downy, rate: 0.2-0.4 kg/ha } ]\nbefore_harvest: 28 d\nre_entry: 24 h\ncures: 72 h\n${more}`,
})

function downyOf(files: Files) {
  const { items } = today(inputOf({ ...INFECTED, ...files }, AS_OF)).data
  return items.filter(({ disease, blocks }) => disease === 'downy' && blocks.includes('upper'))
}

test('what still cures is told in the line of the disease, with the partner that its label needs', () => {
  const [line, ...more] = downyOf(cure('acts: [curative]\nwith: [copper]\n'))
  expect(more).toEqual([])
  expect(line).toMatchObject({ urgency: 'now', until: '2026-06-21' })
  expect(line!.text).toMatch(/Cure acts until Sun 21 Jun/)
  expect(line!.next).toMatch(/--product "cure=0.4 kg\/ha" --product "copper=2 kg\/ha"/)
})

test('a product that cures and lasts goes alone', () => {
  const [line] = downyOf(cure('acts: [curative, systemic]\nprotects: 10 d\n'))
  expect(line!.next).toMatch(/--product "cure=0.4 kg\/ha" --sprayer/)
})

test.each([
  [
    'its partner is used up',
    'acts: [curative]\nwith: [salt]\n',
    {
      'products/salt.yaml':
        'name: Salt\nform: WG\nkind: fungicide\nactives: [ { name: salt } ]\nuses: [ { against: downy, rate: 1-2 kg/ha } ]\nstock: 0 kg\nstocked: 2026-06-01\n',
    },
  ],
  ['its label ends before bloom', 'acts: [curative]\nnot_after: 57\n', {}],
  [
    'it was sprayed since',
    'acts: [curative]\n',
    {
      'seasons/2026/sprays.yaml':
        '- { date: 2026-06-20, time: 07:00-08:00, blocks: [upper], water: 300 L/ha, products: [ { product: cure, rate: 0.3 kg/ha, for: downy } ] }\n',
    },
  ],
])('no clock runs where %s', (_, more, files) => {
  const lines = downyOf({ ...cure(more), ...files })
  expect(lines.map(({ text }) => text).join(' ')).not.toMatch(/Cure acts until/)
  expect(lines.map(({ next }) => next).join(' ')).not.toContain('cure=')
})
