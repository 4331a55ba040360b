import { spawnSync } from 'node:child_process'
import { chmodSync, cpSync, existsSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { TABLE } from '../../src/commands/table.ts'

const PROJECT = fileURLToPath(new URL('../..', import.meta.url))

/** A fenced block of a Markdown text: its language, and the lines between the fences. */
export interface Fenced {
  language: string
  text: string
}

/** What a sample's commands printed when they were run, and the commands that did not exit with 0. */
export interface Played {
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

/** The texts of a page's `console` blocks, in their order. */
export function samplesIn(markdown: string): string[] {
  return fencedBlocks(markdown).flatMap(({ language, text }) => (language === 'console' ? [text] : []))
}

/**
 * The same Markdown with each `console` block as the program prints it now.
 * @param played what the `console` blocks became, in their order
 */
export function withPlayed(markdown: string, played: readonly Played[]): string {
  let next = 0
  return markdown.replace(
    /^```console\n[\s\S]*?^```$/gm,
    () => `\`\`\`console\n${played[next++]!.text}\`\`\``,
  )
}

const COMMANDS = /(<!-- commands:.*-->\n)[\s\S]*?(<!-- end of commands -->)/

/** The list of commands between its two marks, or null where a page has none. */
export function commandListIn(markdown: string): string | null {
  return COMMANDS.exec(markdown)?.[0] ?? null
}

/** The same Markdown with the list of commands as the table of commands has it now. */
export function withCommandList(markdown: string): string {
  const rows = TABLE.map(([usage, summary]) => `| \`${usage}\` | ${summary} |`)
  return markdown.replace(
    COMMANDS,
    (_, head: string, end: string) =>
      `${head}\n| command | what it does |\n|---|---|\n${rows.join('\n')}\n\n${end}`,
  )
}

/** The commands of a sample as they are typed, and as a shell is given them. */
export function commandsIn(text: string): { typed: string; command: string }[] {
  return [...text.matchAll(/^\$ (?:.*\\\n)*.*$/gm)].map(([typed]) => ({ typed, command: typed.slice(2) }))
}

/**
 * Plays a page's samples as its reader types them: one after the other, in one fresh clone named `rowbook`, each
 * beginning in the folder in which the one before it ended.
 */
export function playAll(samples: readonly string[]): Played[] {
  const home = mkdtempSync(join(tmpdir(), 'rowbook-'))
  let folder = join(home, 'rowbook')
  cpSync(join(PROJECT, 'examples'), join(folder, 'examples'), { recursive: true })
  const env = {
    PATH: `${folderOfProgram(home)}:${process.env.PATH}`,
    HOME: home,
    TZ: 'UTC',
    NO_COLOR: '1',
    COLUMNS: '80',
    XDG_CACHE_HOME: join(home, '.cache'),
  }
  return samples.map((text) => {
    const failed: string[] = []
    const parts = commandsIn(text).map(({ typed, command }) => {
      const into = /^cd (\S+)$/.exec(command)?.[1]
      if (into !== undefined) {
        folder = resolve(folder, into)
        if (!existsSync(folder)) failed.push(`no such folder: ${command}`)
        return `${typed}\n`
      }
      const run = spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8', env })
      if (run.status !== 0 || run.stderr !== '')
        failed.push(`exit status ${run.status}: ${command}\n${run.stderr}`)
      return `${typed}\n${run.stdout}`
    })
    return { text: parts.join('\n').replace(/^(\$ cd .*\n)\n/gm, '$1'), failed }
  })
}

/**
 * Lays out the records that a page shows: each `yaml` block whose first line is a comment with the path of its file.
 * @returns the folder of the ledger, and the paths
 */
export function layOutRecords(markdown: string): { ledger: string; paths: string[] } {
  const ledger = mkdtempSync(join(tmpdir(), 'rowbook-records-'))
  const paths: string[] = []
  for (const { language, text } of fencedBlocks(markdown)) {
    const path = language === 'yaml' ? /^# (\S+\.yaml)\n/.exec(text)?.[1] : undefined
    if (path === undefined) continue
    paths.push(path)
    mkdirSync(dirname(join(ledger, path)), { recursive: true })
    writeFileSync(join(ledger, path), text)
  }
  return { ledger, paths }
}

/** A folder with nothing but `rowbook`, as an installation puts it on the path. */
function folderOfProgram(home: string): string {
  const folder = join(home, 'bin')
  mkdirSync(folder)
  writeFileSync(
    join(folder, 'rowbook'),
    `#!/bin/sh\nexec "${process.execPath}" "${join(PROJECT, 'bin/rowbook.js')}" "$@"\n`,
  )
  chmodSync(join(folder, 'rowbook'), 0o755)
  return folder
}
