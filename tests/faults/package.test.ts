import { execFileSync, spawnSync } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { PROGRAM, PROJECT } from './processes.ts'

const read = (file: string) => readFileSync(join(PROJECT, file), 'utf8')
const manifest = JSON.parse(read('package.json')) as {
  dependencies: Record<string, string>
  files: string[]
  scripts: Record<string, string>
  devDependencies: Record<string, string>
}
const PROGRAMS = ['dist/start.cjs', 'dist/rowbook.cjs']

describe('what is installed', () => {
  test('runs with Node alone, without a registry', () => {
    const place = mkdtempSync(join(tmpdir(), 'rowbook-packed-'))
    const copy = join(place, 'copy')
    const made = ['.gitignore', '.git', 'node_modules', 'dist', 'coverage', '.stryker-tmp', 'tests']
    cpSync(PROJECT, copy, { recursive: true, filter: (file) => !made.includes(file.slice(PROJECT.length)) })
    symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'))
    mkdirSync(join(copy, 'dist'))
    writeFileSync(join(copy, 'dist/load-1a2b3c4d.js'), '// what an older build left')
    const env = { PATH: process.env.PATH, HOME: join(place, 'home'), npm_config_cache: join(place, 'cache') }
    const npm = (...args: string[]) =>
      execFileSync('npm', [...args, '--offline'], { cwd: copy, env, encoding: 'utf8', stdio: 'pipe' })
    npm('pack', '--pack-destination', place)
    expect(readFileSync(join(copy, 'package.json'), 'utf8')).toBe(read('package.json'))
    const file = readdirSync(place).find((name) => name.endsWith('.tgz'))!
    const prefix = join(place, 'installed')
    npm('install', '--global', join(place, file), '--prefix', prefix, '--no-audit', '--no-fund')
    rmSync(copy, { recursive: true })
    expect(readdirSync(join(prefix, 'lib/node_modules'))).toEqual(['rowbook'])
    expect(readdirSync(join(prefix, 'lib/node_modules/rowbook/dist'))).not.toContain('load-1a2b3c4d.js')
    const ledger = join(prefix, 'lib/node_modules/rowbook/examples/far-quillet')
    const lines = [
      ['--version'],
      ['check'],
      ['today'],
      ['season', '--html', '-'],
      ['calendar'],
      ['totals', '--json'],
    ]
    for (const words of lines) {
      const args = words[0] === '--version' ? words : [...words, '--ledger', ledger, '--as-of', '2026-09-14']
      const { status, stdout, stderr } = spawnSync(join(prefix, 'bin/rowbook'), args, {
        cwd: place,
        env,
        encoding: 'utf8',
        maxBuffer: 1 << 28,
      })
      expect([words, status, stderr, stdout.length > 4]).toEqual([words, 0, '', true])
    }
    rmSync(place, { recursive: true })
  }, 300_000)

  test('installing it runs no script', () => {
    for (const script of ['preinstall', 'install', 'postinstall'])
      expect(manifest.scripts).not.toHaveProperty(script)
  })

  test('holds the program, the example, and the licences, and nothing else', () => {
    const [packed] = JSON.parse(
      execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
        cwd: PROJECT,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
        maxBuffer: 1 << 28,
      }),
    ) as [{ files: { path: string }[] }]
    const files = packed.files.map(({ path }) => path)
    expect(files).toEqual(
      expect.arrayContaining([
        'bin/rowbook.js',
        ...PROGRAMS,
        'dist/THIRD-PARTY-LICENSES.txt',
        'LICENSE',
        'package.json',
      ]),
    )
    const others = files.filter(
      (file) => !/^(bin|dist|examples\/far-quillet)\/|^(LICENSE|README\.md|package\.json)$/.test(file),
    )
    expect(others).toEqual([])
  })

  test('names each bundled library with its version and licence', () => {
    const text = read('dist/THIRD-PARTY-LICENSES.txt')
    const named = [...text.matchAll(/^(@?[a-z0-9./-]+) \d+\.\d+\.\d+\S* \(([^)]+)\)$/gm)]
    expect(named.map(([, name]) => name)).toEqual(expect.arrayContaining(Object.keys(manifest.dependencies)))
    const allowed = new Set(['MIT', 'ISC', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD'])
    expect(named.filter(([, , licence]) => !allowed.has(licence!))).toEqual([])
  })

  test('each dependency has one exact version, and its line in DEVELOPERS.md', () => {
    const table = read('DEVELOPERS.md')
    for (const [name, version] of Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/)
      if (!name.startsWith('@types/')) expect(table, name).toContain(name)
    }
    expect(existsSync(join(PROJECT, 'package-lock.json'))).toBe(true)
  })
})

describe('no network', () => {
  const NETWORK = [
    'http',
    'https',
    'http2',
    'net',
    'tls',
    'dns',
    'dgram',
    'inspector',
    'worker_threads',
    'cluster',
  ]

  test('the program uses no network module of Node', () => {
    for (const name of PROGRAMS) {
      const text = read(name)
      for (const library of NETWORK)
        expect(
          new RegExp(`require\\(["'\`](?:node:)?${library}(?:/promises)?["'\`]\\)`).test(text),
          `${library} in ${name}`,
        ).toBe(false)
      expect(/\bnew (?:WebSocket|XMLHttpRequest|EventSource)\b/.test(text), name).toBe(false)
    }
  })

  test('it runs where network modules cannot be loaded', () => {
    const block = `const Module=require('module'),load=Module._load;Module._load=function(name,...rest){if(${JSON.stringify(NETWORK)}.includes(name.replace('node:','')))throw new Error('network: '+name);return load.call(this,name,...rest)};globalThis.fetch=()=>{throw new Error('network')}`
    const file = `data:text/javascript,${encodeURIComponent(`import { createRequire } from 'node:module';const require=createRequire('/');${block}`)}`
    for (const command of ['check', 'totals', 'ready', 'pressure', 'window', 'diary']) {
      const { status, stderr } = spawnSync(
        'node',
        [
          '--import',
          file,
          PROGRAM,
          command,
          ...(command === 'ready' ? ['--all'] : []),
          '--ledger',
          'examples/far-quillet',
          '--as-of',
          '2026-09-14',
        ],
        { cwd: PROJECT, encoding: 'utf8', env: { PATH: process.env.PATH, HOME: '/dev/null/nowhere' } },
      )
      expect([command, [0, 1].includes(status!), stderr]).toEqual([command, true, ''])
    }
  })
})
