import { cpSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run } from './run.ts'

const LATE = ['--ledger', 'examples/far-quillet', '--as-of', '2026-09-14']
const folder = mkdtempSync(join(tmpdir(), 'rowbook-sheet-'))
const dataOf = (args: readonly string[]) => JSON.parse(run([...args, '--json']).stdout)

describe('sheet', () => {
  test.each(['scouting', 'sampling', 'crop'])('%s: the same seed makes the same bytes', (kind) => {
    const page = (seed: string) => run(['sheet', kind, ...LATE, '--seed', seed, '--html', '-']).stdout
    const first = page('round-3')
    expect(first).toContain('round-3')
    expect(page('round-3')).toBe(first)
    expect(page('round-4')).not.toBe(first)
  })

  test('prints the command that makes it again', () => {
    const printed = run(['sheet', 'crop', ...LATE, '--block', 'top-terrace', '--precision', '15']).stdout
    const again = /^ {2}(rowbook sheet .*)$/m.exec(printed.replace(/ \\\n */g, ' '))![1]!
    expect(run([...again.split(' ').slice(1), '--ledger', 'examples/far-quillet']).stdout).toBe(printed)
  })

  test('names rows and vines that the block has, each once', () => {
    const { data } = dataOf(['sheet', 'scouting', ...LATE])
    expect(data.blocks.length).toBeGreaterThan(1)
    for (const { rows, vines, lines } of data.blocks) {
      const places = lines.map(({ places }: { places: { row: number; vine: number }[] }) => places[0]!)
      expect(lines.length).toBeLessThanOrEqual(vines)
      expect(places.every(({ row, vine }: { row: number; vine: number }) => row <= rows && vine >= 1)).toBe(
        true,
      )
      expect(new Set(places.map((place: object) => JSON.stringify(place))).size).toBe(places.length)
    }
  })

  test('asks for as many as scouting and ripeness do', () => {
    const { detection } = dataOf(['scouting', ...LATE]).data
    const sheet = dataOf(['sheet', 'scouting', ...LATE]).data
    for (const { wanted } of sheet.blocks)
      for (const { units } of wanted) expect(units).toBeGreaterThanOrEqual(detection.units)
    const samples = dataOf(['ripeness', ...LATE]).data.samples
    const last = samples.findLast((one: { block: string }) => one.block === 'top-terrace')
    const sampling = dataOf(['sheet', 'sampling', ...LATE, '--block', 'top-terrace']).data.blocks[0]
    expect(sampling.wanted[0].units).toBe(last.readings + last.needed)
  })

  test('has blocks in the order in which note offers them, and says what to type', () => {
    const { blocks } = dataOf(['sheet', 'scouting', ...LATE]).data
    const ids = blocks.map(({ block }: { block: string }) => block)
    expect(ids).toEqual([...ids].sort())
    const typed = blocks[0].typeIn.replaceAll('__', '1').split(' ').slice(1)
    const looked = typed.map((word: string) => word.replace(/^(bunches|leaves)=1$/, '$1=100'))
    expect(run([...looked, '--date', '2026-09-14', '--dry-run', ...LATE]).status).toBe(0)
  })

  test('says a disease of two words on paper, and types it as one', () => {
    const ledger = join(folder, 'two-words')
    cpSync('examples/far-quillet', ledger, { recursive: true })
    const site = join(ledger, 'vineyard.yaml')
    writeFileSync(site, `${readFileSync(site, 'utf8')}diseases: [powdery, black-rot]\n`)
    const [block] = dataOf(['sheet', 'scouting', '--ledger', ledger, '--as-of', '2026-09-14']).data.blocks
    expect(block.columns).toContain('black rot: bunches')
    expect(block.typeIn).toContain('--found black-rot.bunches=__')
  })

  test('says who may not enter yet', () => {
    const day = ['--ledger', 'examples/far-quillet', '--as-of']
    const sprays = dataOf(['calendar', '--past', ...day, '2026-09-14']).data.events
    const out = sprays.find(({ kind }: { kind: string }) => kind === 're-entry')
    const made = run(['sheet', 'scouting', ...day, out.start.slice(0, 10), '--html', '-']).stdout
    expect(made).toContain('Keep out until')
  })

  test('fills no tank over the label', () => {
    const file = join(folder, 'over.html')
    const over = ['--block', 'brook-rows', '--product', 'sulphur-80=30kg/ha', '--sprayer', 'mounted']
    const { status, stderr } = run(['sheet', 'spray', ...LATE, ...over, '--html', file])
    expect(status).toBe(1)
    expect(stderr).toContain('over the label')
    expect(existsSync(file)).toBe(false)
  })

  test('the fill sheet has the amounts that mix prints', () => {
    const typed = ['--block', 'brook-rows', '--product', 'sulphur-80=3kg/ha', '--sprayer', 'mounted', ...LATE]
    const file = join(folder, 'fill.html')
    run(['sheet', 'spray', ...typed, '--html', file])
    const shed = run(['mix', '--shed', ...typed]).stdout
    const amounts = [...shed.matchAll(/\[ \] .* (\d[\d.]* k?g)$/gm)].map((match) => match[1]!)
    expect(amounts.length).toBeGreaterThan(0)
    // A number and its unit are held together on a page.
    const page = readFileSync(file, 'utf8').replaceAll('\u00a0', ' ')
    for (const amount of amounts) expect(page).toContain(`>${amount}<`)
  })

  test('shows a name full of markup as text', () => {
    const ledger = makeLedger({
      'blocks/odd.yaml':
        'name: "<script>alert(1)</script>"\nvariety: palava\nrows: 3\nrow_length: 12 m\nrow_spacing: 2 m\nvine_spacing: 1 m\n',
    })
    const page = run(['sheet', 'crop', '--ledger', ledger, '--as-of', '2026-08-01', '--html', '-']).stdout
    expect(page).toContain('&lt;script&gt;')
    expect(page).not.toContain('<script')
  })

  test.each([
    [['sheet', 'walk'], 'scouting'],
    [['sheet', 'scouting', '--seed', 'a b'], 'hyphens'],
    [['sheet', 'scouting', '--vines', '2.5'], 'whole number'],
    [['sheet', 'sampling', '--precision', '40'], 'outside'],
    [['sheet', 'crop', '--tank', '12L'], '--tank is not for a crop sheet'],
    [['sheet', 'sampling', '--organ', 'leaves'], '--organ is not for a sampling sheet'],
    [['sheet', 'scouting', '--organ', 'leafs'], '--organ does not take `leafs`'],
    [['sheet', 'spray', '--seed', 'x'], '--seed is not for a spray sheet'],
  ])('%j is refused with a way out', (args, said) => {
    const { status, stderr } = run([...args, ...LATE])
    expect(status).toBe(2)
    expect(stderr).toContain(said)
    expect(stderr).not.toContain('    at ')
  })
})
