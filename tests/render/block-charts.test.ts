import { describe, expect, test } from 'vitest'
import { renderBars } from '../../src/render/bars.ts'
import { renderCourse } from '../../src/render/course.ts'
import { renderSpans } from '../../src/render/spans.ts'
import { PLAIN, type Style } from '../../src/render/style.ts'
import { display } from '../../src/render/units.ts'

const style: Style = { columns: 60, units: 'metric', paint: PLAIN }
const bar = (name: string, value: number, more: object = {}) => ({ name, value, ...more })

describe('bars', () => {
  const drawn = (bars: Parameters<typeof renderBars>[0]['bars']) =>
    renderBars({ title: 'Copper', unit: 'kg/ha', bars }, style, display).split('\n')

  test('are as long as their value, and end at a stroke where the limit is', () => {
    const [half, whole, words] = drawn([bar('Upper', 2, { limit: 4 }), bar('Lower', 4, { limit: 4 })])
    expect(half!.match(/█/g)!.length * 2).toBeCloseTo(whole!.match(/█/g)!.length, -1)
    expect(half!.indexOf('│')).toBe(whole!.indexOf('│'))
    expect(half).toMatch(/2 kg\/ha of 4 kg\/ha$/)
    expect(words).toContain('Copper; │ the limit')
  })

  test('go on lightly up to the end of the interval, and stay in the width', () => {
    const lines = drawn([bar('Upper', 500, { low: 300, high: 1000 }), bar('Lower', 0, { low: 0, high: 0 })])
    expect(lines[0]!.match(/░/g)!.length).toBeGreaterThan(10)
    expect(lines[1]).toMatch(/^Lower +0 kg\/ha$/)
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(60)
  })

  test('say their figures in the units asked for, within the width', () => {
    const us = { ...style, columns: 80, units: 'us' as const }
    const chart = { title: 'Copper', unit: 'kg/ha', bars: [bar('Upper', 3.01, { limit: 4 })] }
    const [line] = renderBars(chart, us, display).split('\n')
    // 1 kg/ha is 0.8922 lb/acre.
    expect(line).toMatch(/2\.69 lb\/acre of 3\.57 lb\/acre$/)
    expect(line!.length).toBeLessThanOrEqual(80)
  })

  test('print nothing where there is none', () => expect(drawn([])).toEqual(['']))
})

test('spans lie over one time, the likely day full', () => {
  const rows = [
    { name: 'Upper', earliest: '2026-09-01', likely: '2026-09-03', latest: '2026-09-05' },
    { name: 'Low\u001b[31mer', earliest: '2026-09-05', likely: null, latest: '2026-09-06' },
  ]
  const [upper, lower] = renderSpans({ title: 'When', rows }, style).split('\n')
  expect(upper!.trim()).toMatch(/^Upper +░░█░░$/)
  expect(lower).not.toContain('\u001b')
  expect(lower!.indexOf('░')).toBe(upper!.lastIndexOf('░'))
})

test('a course rises with its figures, and shows when the target is expected', () => {
  const point = (date: string, value: number) => ({ date, value, low: null, high: null })
  const points = [point('2026-09-01', 15), point('2026-09-08', 17), point('2026-09-15', 19)]
  const panels = [
    { name: 'Sugar', unit: 'Brix', points },
    { name: 'pH', unit: '', points: points.slice(0, 1) },
  ]
  const window = { name: 'target', earliest: '2026-09-18', likely: '2026-09-20', latest: '2026-09-23' }
  const chart = { title: '', from: '2026-08-31', to: '2026-09-24', panels, window }
  const lines = renderCourse(chart, style).split('\n')
  expect(lines[0]).toMatch(/^ {2}Sugar 15\.0-19\.0 Brix {3}▁ {6}▅ {6}█ {2}░░▓░░░$/)
  expect(lines.join('\n')).not.toContain('pH')
})
