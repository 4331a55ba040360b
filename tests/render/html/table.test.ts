import { expect, test } from 'vitest'
import { pageTable } from '../../../src/render/html/table.ts'

test('many figures in a row are laid out on a card, two or three to a line and none alone', () => {
  const count = 80
  const { text } = pageTable({
    caption: 'Many',
    columns: ['figure', ...Array.from({ length: count }, (_, at) => ({ title: String(at), number: true }))],
    rows: [['sugar', ...Array.from({ length: count }, () => '1')]],
  })
  const cells = [...text.matchAll(/<td [^>]*class="number ?(\w*)"/g)].map(([, place]) => place)
  expect(cells).toHaveLength(count)
  expect(new Set(cells)).toEqual(new Set(['third', 'half']))
})
