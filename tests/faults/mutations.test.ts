import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { COMMANDS } from '../commands/whole-table.ts'
import { lookAt, put } from './book.ts'
import { NEEDED, runHere, WRITERS } from './in-process.ts'
import { type Mutation, mutationsOf } from './mutate.ts'
import { isSilent } from './silent.ts'
import { SOAK, times } from './size.ts'

const EXAMPLE = fileURLToPath(new URL('../../examples/far-quillet', import.meta.url))
const AS_OF = '2026-09-14'
const COUNT = Number(process.env.ROWBOOK_MUTATIONS ?? times(150, 5000))
const SEED = Number(process.env.ROWBOOK_SEED ?? 8)

const root = join(mkdtempSync(join(tmpdir(), 'rowbook-mutations-')), 'far-quillet')
cpSync(EXAMPLE, root, { recursive: true })
// The short form reads the newest season only, which takes a third of the time.
if (!SOAK) for (const season of ['2024', '2025']) rmSync(join(root, 'seasons', season), { recursive: true })

const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((file) =>
  file.endsWith('.yaml'),
)
const all = files.sort().flatMap((file) => mutationsOf(file, readFileSync(join(root, file), 'utf8')))
const sampled = fc.sample(
  fc.shuffledSubarray(all, {
    minLength: Math.min(all.length, COUNT),
    maxLength: Math.min(all.length, COUNT),
  }),
  { numRuns: 1, seed: SEED },
)[0]!

const READERS = COMMANDS.filter(({ name }) => !WRITERS.has(name) && name !== 'check')
const known = new Set(lookAt(root, AS_OF).findings.map((finding) => JSON.stringify(finding)))

/** Whether a new finding points at the field, or at its entry where the field was removed. */
function isFound(mutation: Mutation, findings: ReturnType<typeof lookAt>['findings']): boolean {
  const { first, last } = mutation.entry
  const gone = mutation.how === 'taken out'
  return findings.some(({ file, line, ...rest }) => {
    if (file !== mutation.file) return false
    if (known.has(JSON.stringify({ file, line, ...rest }))) return false
    return gone
      ? line >= first - 1 && line <= last
      : Math.abs(line - mutation.line) <= (mutation.how === 'key twice' ? 1 : 0)
  })
}

function findingsOf(mutation: Mutation) {
  try {
    return lookAt(root, AS_OF).findings
  } catch (error) {
    faults.push(
      `${mutation.file} ${mutation.field}: ${mutation.how} -> check: ${error instanceof Error ? error.stack?.slice(0, 300) : error}`,
    )
    return null
  }
}

const missed = new Map<string, number>()
const misplaced = new Map<string, string>()
const faults: string[] = []
let found = 0

test(
  `${sampled.length} mutations of one field each, of ${all.length}`,
  async () => {
    for (const [index, mutation] of sampled.entries()) {
      const original = readFileSync(join(root, mutation.file), 'utf8')
      put(root, mutation.file, mutation.text)
      try {
        const findings = findingsOf(mutation)
        if (!findings) continue
        const fresh = findings.filter((finding) => !known.has(JSON.stringify(finding)))
        const kind = mutation.file.replace(/^seasons\/\d+\//, '').replace(/[/.].*/, '')
        const name = `${kind} ${mutation.field}: ${mutation.how}`
        if (isFound(mutation, findings)) found += 1
        else if (fresh.length > 0)
          misplaced.set(
            name,
            fresh.map(
              (one) => `${one.name} ${one.file}:${one.line} not ${mutation.file}:${mutation.line}`,
            )[0]!,
          )
        else if (mutation.illegal || !isSilent(mutation)) missed.set(name, (missed.get(name) ?? 0) + 1)
        if (!findings.some(({ level }) => level === 'error')) {
          const command = READERS[index % READERS.length]!
          const args = [
            command.name,
            ...(NEEDED[command.name] ?? []),
            '--ledger',
            root,
            '--as-of',
            AS_OF,
            ...(index % 2 ? ['--json'] : []),
          ]
          const { fault, out } = await runHere(args, root, AS_OF)
          if (fault) faults.push(`${name} -> ${args[0]}: ${fault}`)
          if (/\b(NaN|Infinity|undefined)\b/.test(out))
            faults.push(`${name} -> ${args[0]} prints ${/.*\b(NaN|Infinity|undefined)\b.*/.exec(out)![0]}`)
        }
      } finally {
        put(root, mutation.file, original)
      }
    }
    if (process.env.ROWBOOK_SHOW) {
      console.log(
        `found on its line ${found}, elsewhere ${misplaced.size} classes, silent ${missed.size} classes`,
      )
      console.log(
        [...missed]
          .sort()
          .map(([name, count]) => `  ${count} ${name}`)
          .join('\n'),
      )
      console.log(
        'elsewhere\n',
        [...misplaced]
          .sort()
          .map(([name, where]) => `  ${name} -> ${where}`)
          .join('\n'),
      )
      console.log('faults\n', faults.join('\n'))
    }
    expect(faults).toEqual([])
    expect([...missed.keys()].sort()).toEqual([])
  },
  SOAK ? 14_400_000 : 120_000,
)
