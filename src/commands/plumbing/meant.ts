import { NOTE_KINDS } from './note-options.ts'
import { RECORD_KINDS } from './record-options.ts'

/** Other words for the kinds of entry, as people type them where a command stands. */
const KINDS: Readonly<Record<string, string>> = {
  sprays: 'spray',
  scout: 'scouting',
  round: 'scouting',
  samples: 'sample',
  stages: 'stage',
  picks: 'pick',
  harvested: 'pick',
}

/** Option that a bare word behind a command most likely stands for, where that isn't a block. */
const BARE_WORD: Readonly<Record<string, string>> = { sugar: '--brix', mix: '--product', changes: '' }

/**
 * The command line that was most likely meant by one that could not be read, with what to say of it.
 * @param code what the parser found wrong
 * @returns null where nothing is likely
 */
export function lineMeant(
  code: string,
  argv: readonly string[],
  commands: readonly { name: string }[],
): string | null {
  const words = argv.filter((word) => !word.startsWith('-'))
  const [first, second] = words
  if (first === undefined) return null
  const kind = [...NOTE_KINDS, ...RECORD_KINDS].find((one) => one === first) ?? KINDS[first]
  if (code === 'commander.unknownCommand') return kind ? `rowbook note ${kind}` : null
  if (code !== 'commander.excessArguments' || second === undefined) return null
  const command = commands.find(({ name }) => name === first)
  if (!command) return null
  const option = BARE_WORD[first] ?? '--block'
  if (option === '') return null
  const value = /\s/.test(second) ? `"${second}"` : second
  return `rowbook ${first} ${option} ${value}`
}
