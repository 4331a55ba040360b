import { spawnSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { ledgerCopy } from './run.ts'

const PROGRAM = fileURLToPath(new URL('../../bin/rowbook.js', import.meta.url))

/** A fenced block of a Markdown text: its language, and the lines between the fences. */
export interface Fenced {
  language: string
  text: string
}

/** What a sample's commands printed when they were run, and the commands that did not exit with 0. */
interface Played {
  text: string
  failed: string[]
}

/** The fenced blocks of a Markdown text, in their order. */
export function fencedBlocks(markdown: string): Fenced[] {
  return [...markdown.matchAll(/^```(.*)\n([\s\S]*?)^```$/gm)].map(([, language, text]) => ({
    language: language!,
    text: text!,
  }))
}

/**
 * The same Markdown with each `console` block as the program prints it now.
 * @param played what each `console` block's text became.
 */
export function withPlayed(markdown: string, played: ReadonlyMap<string, Played>): string {
  return markdown.replace(/^```console\n([\s\S]*?)^```$/gm, (_, text: string) => {
    return `\`\`\`console\n${played.get(text)!.text}\`\`\``
  })
}

/**
 * Runs the commands of a sample, one after the other, on a copy of the example made for it.
 * @param text lines of a `console` block: a command stands behind `$ ` and goes on after a backslash at its end.
 */
export function play(text: string): Played {
  const ledger = ledgerCopy()
  const path = `${folderOfProgram()}:${process.env.PATH}`
  const failed: string[] = []
  const parts = commandsIn(text).map(({ typed, command }) => {
    // The reader changes into the example; a sample is already in its own copy of it.
    if (command === 'cd examples/far-quillet') return `${typed}\n`
    const { status, stdout, stderr } = spawnSync('sh', ['-c', command], {
      cwd: ledger,
      encoding: 'utf8',
      env: { PATH: path, HOME: ledger, NO_COLOR: '1', COLUMNS: '80', XDG_CACHE_HOME: join(ledger, '.cache') },
    })
    if (status !== 0 || stderr !== '') failed.push(`exit status ${status}: ${command}\n${stderr}`)
    return `${typed}\n${stdout}`
  })
  return { text: parts.join('\n').replace(/^(\$ cd .*\n)\n/, '$1'), failed }
}

/** The commands of a sample as they are typed, and as a shell is given them. */
export function commandsIn(text: string): { typed: string; command: string }[] {
  return [...text.matchAll(/^\$ (?:.*\\\n)*.*$/gm)].map(([typed]) => ({ typed, command: typed.slice(2) }))
}

/** A folder with nothing but `rowbook`, as an installation puts it on the path. */
function folderOfProgram(): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'rowbook-')), 'bin')
  mkdirSync(folder)
  writeFileSync(join(folder, 'rowbook'), `#!/bin/sh\nexec "${process.execPath}" "${PROGRAM}" "$@"\n`)
  chmodSync(join(folder, 'rowbook'), 0o755)
  return folder
}
