import { expect, test } from 'vitest'
import { numbers, words } from '../../../src/render/columns.ts'
import { pageTable } from '../../../src/render/html/table.ts'

test('many figures in a row are laid out on a card, two or three to a line and none alone', () => {
  const count = 80
  const figures = Array.from({ length: count }, (_, at) => numbers(String(at), () => '1'))
  const { text } = pageTable('Many', ['sugar'], [words('figure', (name) => name), ...figures])
  const cells = [...text.matchAll(/<td [^>]*class="number ?(\w*)"/g)].map(([, place]) => place)
  expect(cells).toHaveLength(count)
  expect(new Set(cells)).toEqual(new Set(['third', 'half']))
})
