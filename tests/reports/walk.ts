import { mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { runHere } from '../faults/in-process.ts'

/** What a command line printed, on both channels. */
export interface Walked {
  line: string
  out: string
}

const REPORTS = [
  'today', 'check', 'totals', 'heat', 'pressure', 'cover', 'scouting', 'ripeness', 'window', 'crop', 'harvest', 'ready', 'season', 'diary', 'label',
] // biome-ignore format: a list of words reads better in few lines

const idsIn = (root: string, kind: string) =>
  readdirSync(join(root, kind))
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => file.slice(0, -5))

/** Command lines of every report, sheet and entry, over the blocks, products and sprayers of a ledger. */
export function linesOf(root: string): string[][] {
  const block = idsIn(root, 'blocks')[0]!
  const sprayer = idsIn(root, 'sprayers').at(-1)!
  const products = idsIn(root, 'products')
  const sulphur = products.find((id) => id.startsWith('sulphur'))!
  const bicarbonate = products.find((id) => id.includes('bicarbonate'))!
  const on = ['--block', block, '--product', `${sulphur}=3 lb/acre`, '--sprayer', sprayer]
  const note = (kind: string, ...fields: string[]) => ['note', kind, '--block', block, ...fields, '--dry-run']
  return [
    ...REPORTS.map((report) => [report]),
    ['ready', '--all'],
    ['ready', '--block', block],
    ['window', '--backtest'],
    ['cover', '--for', 'downy'],
    ['cover', '--for', 'botrytis'],
    ...['eu', 'uk', 'us'].map((form) => ['diary', '--form', form]),
    ['compare', '2025', '2026'],
    ['mix', ...on],
    ['mix', ...on, '--product', `${bicarbonate}=1.5 oz/US gal`, '--shed'],
    ['mix', '--block', block, '--product', `${sulphur}=30 lb/acre`, '--sprayer', sprayer],
    [
      'mix',
      '--spot',
      '--block',
      block,
      '--rows',
      '3-5',
      '--water',
      '2 US gal',
      '--product',
      `${sulphur}=0.5 oz/US gal`,
    ],
    ...['scouting', 'sampling', 'crop'].map((kind) => ['sheet', kind]),
    ['sheet', 'spray', ...on],
    ['harvest', '--people', '6', '--date', '2026-09-28'],
    ['sugar', '--brix', '21.5', '--temperature', '82 F'],
    ['calibrate', '--flow', '1.5 US gal/min', '--speed', '3 mph', '--width', '7 ft'],
    ['note', 'spray', '--like', 'last', '--dry-run', '--anyway'],
    note('spray', '--water', '30 US gal/acre', '--product', `${sulphur}=30 lb/acre`, '--for', 'powdery'),
    note('scouting', '--looked-at', 'bunches=100', '--found', 'powdery.bunches=40'),
    note('sample', '--berries', '100', '--brix', '19.6', '--ta', '8.4 g/L'),
    note('pick', '--weight', '4000 lb'),
  ]
}

/** Runs command lines over a ledger as on a day, and hands back what each printed. */
export async function walk(
  root: string,
  lines: readonly string[][],
  asOf: string,
  columns = 80,
): Promise<Walked[]> {
  const all: Walked[] = []
  const cache = mkdtempSync(join(tmpdir(), 'rowbook-cache-'))
  for (const args of lines) {
    const { out, err, fault } = await runHere([...args, '--as-of', asOf], root, asOf, columns, cache)
    if (fault) throw new Error(`rowbook ${args.join(' ')}: ${fault}`)
    all.push({ line: `rowbook ${args.join(' ')} --as-of ${asOf}`, out: out + err })
  }
  return all
}
