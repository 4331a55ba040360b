import { execFileSync } from 'node:child_process'
import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { AS_OF, lookAt, smallBook } from './book.ts'
import { runHere } from './in-process.ts'
import { boundByPermissions } from './refusing-disk.ts'

const told = (root: string) => {
  const started = performance.now()
  const { findings, ledger } = lookAt(root)
  expect(performance.now() - started).toBeLessThan(2000)
  return { names: findings.map(({ name, file }) => [name, file]), ledger, text: JSON.stringify(findings) }
}

describe('R13: what is not a plain file', () => {
  const SECRET = 'name: Secret Rows\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\n'

  test('a link to a file outside', () => {
    const root = smallBook()
    const outside = smallBook({ 'blocks/secret.yaml': SECRET })
    symlinkSync(join(outside, 'blocks/secret.yaml'), join(root, 'blocks/linked.yaml'))
    const { names, ledger, text } = told(root)
    expect(names).toContainEqual(['not-a-plain-file', 'blocks/linked.yaml'])
    expect(ledger.blocks.has('linked')).toBe(false)
    expect(text).not.toContain('Secret')
  })

  test('a link to a folder outside, in place of a kind, a season and all seasons', () => {
    const outside = smallBook({ 'blocks/secret.yaml': SECRET })
    for (const place of ['seasons/2025', 'seasons/2026/stages', 'seasons/2024']) {
      const root = smallBook({ 'seasons/2026/stages.yaml': null })
      symlinkSync(join(outside, 'seasons/2026'), join(root, place))
      const { ledger, names } = told(root)
      expect(ledger.seasons).toEqual([2026])
      expect(ledger.stages).toEqual([])
      expect(names.length, place).toBeGreaterThan(0)
    }
    const root = smallBook({ 'blocks/upper.yaml': null, 'blocks/lower.yaml': null })
    symlinkSync(join(outside, 'blocks'), join(root, 'blocks'))
    expect(told(root).ledger.blocks.size).toBe(0)
    expect(told(root).names).toContainEqual(['not-a-folder', 'blocks'])
  })

  test('a link to itself, to its own folder and to nothing', () => {
    const root = smallBook()
    symlinkSync('.', join(root, 'blocks/loop'))
    symlinkSync('self.yaml', join(root, 'blocks/self.yaml'))
    symlinkSync('gone.yaml', join(root, 'blocks/dangling.yaml'))
    expect(told(root).names).toEqual(
      expect.arrayContaining([
        ['not-a-plain-file', 'blocks/self.yaml'],
        ['not-a-plain-file', 'blocks/dangling.yaml'],
      ]),
    )
  })

  test('a pipe or a socket does not make it wait, and a folder is not a file', () => {
    const root = smallBook()
    execFileSync('mkfifo', [join(root, 'products/pipe.yaml'), join(root, 'seasons/2026/picks-2.yaml')])
    mkdirSync(join(root, 'varieties/folder.yaml'))
    expect(told(root).names).toEqual(
      expect.arrayContaining([
        ['not-a-plain-file', 'products/pipe.yaml'],
        ['stray-file', 'varieties/folder.yaml'],
      ]),
    )
  })

  test('a weather file that is a link, a pipe or a device', () => {
    for (const make of [
      (path: string) => symlinkSync('/etc/passwd', path),
      (path: string) => execFileSync('mkfifo', [path]),
      (path: string) => symlinkSync('/dev/zero', path),
    ]) {
      const root = smallBook({ 'seasons/2026/weather.csv': null })
      make(join(root, 'seasons/2026/weather.csv'))
      const { names, text } = told(root)
      expect(names).toContainEqual(['not-a-plain-file', 'seasons/2026/weather.csv'])
      expect(text).not.toContain('root:')
    }
  })

  test('an outline through a link, or outside, is not read', async () => {
    const BLOCK = 'name: L\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\nboundary: '
    for (const target of ['../../x.geojson', '/etc/passwd', '..\\..\\x', 'a/../../../x']) {
      const { names } = told(smallBook({ 'blocks/lower.yaml': `${BLOCK}${target}\n` }))
      expect(names).toContainEqual(['unknown-file', 'blocks/lower.yaml'])
    }
    const behind = smallBook({ 'blocks/lower.yaml': `${BLOCK}away/lower.geojson\n` })
    const away = smallBook({ 'lower.geojson': '{}' })
    symlinkSync(away, join(behind, 'blocks/away'))
    expect(told(behind).names).toContainEqual(['unknown-file', 'blocks/lower.yaml'])
    const root = smallBook({ 'blocks/lower.yaml': `${BLOCK}lower.geojson\n` })
    symlinkSync('/etc/passwd', join(root, 'blocks/lower.geojson'))
    const { names, text } = told(root)
    expect(names).toContainEqual(['unknown-file', 'blocks/lower.yaml'])
    expect(text).not.toContain('root:')
  })

  test.each([
    [
      'nested far too deep',
      `${'{"type":"FeatureCollection","features":['.repeat(60_000)}${']}'.repeat(60_000)}`,
    ],
    ['brackets only', '['.repeat(200_000)],
    ['not JSON', 'hello'],
    ['corners that are no numbers', '{"type":"Polygon","coordinates":[[["a","b"],[1,2],[1e999,3]]]}'],
    [
      'another prototype',
      '{"type":"Feature","__proto__":{"polluted":1},"geometry":{"type":"Polygon","coordinates":{"__proto__":1}}}',
    ],
  ])('an outline of %s is told and harmless', (_, json) => {
    const block =
      'name: L\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\nboundary: lower.geojson\n'
    const root = smallBook({ 'blocks/lower.yaml': block, 'blocks/lower.geojson': json })
    expect(told(root).names).toContainEqual(['area-disagrees', 'blocks/lower.yaml'])
  })

  test('a file without permission', () => {
    const root = smallBook()
    chmodSync(join(root, 'blocks/upper.yaml'), 0)
    const names = boundByPermissions([root], () => told(root).names)
    expect(names).toContainEqual(['unreadable-file', 'blocks/upper.yaml'])
  })

  test('a folder whose name begins like that of the ledger is still outside', async () => {
    const root = smallBook()
    mkdirSync(`${root}-other`)
    writeFileSync(join(`${root}-other`, 'x.geojson'), '{}')
    const block = `name: L\nvariety: palava\narea: 1 ha\nrow_spacing: 2 m\nvine_spacing: 1 m\nboundary: ../../${root.split('/').at(-1)}-other/x.geojson\n`
    writeFileSync(join(root, 'blocks/lower.yaml'), block)
    expect(told(root).names).toContainEqual(['unknown-file', 'blocks/lower.yaml'])
  })
})

describe('R14: names', () => {
  test.each([
    'CON', 'con.x', 'Top', 'top terrace', 'top_terrace', '-top', 'top-', 'tö', 'to\u0308', 'a:b', 'a.', '~', 'é', 'a\\b',
  ])('blocks/%s.yaml is no id and told', (name) => {
    const root = smallBook({ [`blocks/${name}.yaml`]: 'name: x\n' })
    expect(told(root).names).toContainEqual(['bad-id', `blocks/${name}.yaml`])
  }) // biome-ignore format: a list of names

  test('a name of 250 bytes', () => {
    const name = 'a'.repeat(250)
    expect(told(smallBook({ [`blocks/${name}.yaml`]: 'name: x\n' })).names).toContainEqual([
      'missing-key',
      `blocks/${name}.yaml`,
    ])
  })

  test('a file name that is not UTF-8 causes no crash', () => {
    const root = smallBook()
    try {
      writeFileSync(
        Buffer.concat([Buffer.from(`${root}/blocks/a`), Buffer.from([0xff]), Buffer.from('.yaml')]),
        'name: x\n',
      )
    } catch {
      return
    }
    expect(told(root).names.filter(([, file]) => file!.startsWith('blocks/a'))).not.toEqual([])
  })

  test.each(['../x', '/etc', '~', '-x', 'a\0b', 'x'.repeat(5000), ''])(
    '--block %j writes nowhere else',
    async (id) => {
      const root = smallBook()
      const args = [
        'note',
        'work',
        '--yes',
        '--ledger',
        root,
        '--as-of',
        AS_OF,
        `--block=${id}`,
        '--job',
        'x',
      ]
      const { status, fault } = await runHere(args, root, AS_OF)
      expect([status, fault]).toEqual([2, null])
      expect(openLedger(root, { seasons: 'all' }).work.length).toBe(1)
    },
  )

  test.each(['a\0b', 'x'.repeat(5000), '-', '/dev/null', '/dev/zero'])('--ledger %j', async (folder) => {
    const { status, fault } = await runHere(['check', `--ledger=${folder}`], '/', AS_OF)
    expect([status, fault]).toEqual([2, null])
  })
})
