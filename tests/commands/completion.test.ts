import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { makeLedger } from '../ledger/make.ts'
import { run } from './run.ts'
import { hasTmux, Terminal } from './terminal.ts'
import { COMMANDS } from './whole-table.ts'

const has = (shell: string) => spawnSync(shell, ['--version']).status === 0

/** A folder with `rowbook` in it, so that scripts find the built program. */
function binFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'rowbook-bin-'))
  const program = fileURLToPath(new URL('../../bin/rowbook.js', import.meta.url))
  writeFileSync(join(folder, 'rowbook'), `#!/bin/sh\nexec node '${program}' "$@"\n`, { mode: 0o755 })
  return folder
}

const scripts = new Map<string, string>()

function script(shell: string): string {
  const made = scripts.get(shell)
  if (made) return made
  const file = join(mkdtempSync(join(tmpdir(), 'rowbook-completion-')), `rowbook.${shell}`)
  writeFileSync(file, run(['completion', shell]).stdout)
  scripts.set(shell, file)
  return file
}

/** What a shell offers behind a line of words, the last one unfinished. */
function bash(words: string[], cwd: string): string[] {
  const ask = `source '${script('bash')}'; COMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}; _rowbook; printf '%s\\n' "\${COMPREPLY[@]}"`
  const { stdout, stderr } = spawnSync('bash', ['--norc', '--noprofile', '-c', ask], {
    cwd,
    encoding: 'utf8',
    env: { PATH: `${binFolder()}:${process.env.PATH}` },
  })
  expect(stderr).toBe('')
  return stdout.split('\n').filter((line) => line !== '')
}

describe('completion', () => {
  for (const shell of ['bash', 'zsh', 'fish']) {
    it.skipIf(!has(shell))(
      `is sound in ${shell}, with every command and option (skipped without ${shell})`,
      () => {
        const file = script(shell)
        expect(spawnSync(shell, ['-n', file], { encoding: 'utf8' })).toMatchObject({ status: 0, stderr: '' })
        const text = readFileSync(file, 'utf8')
        for (const { name } of COMMANDS) expect(text).toContain(name)
        for (const option of ['like', 'anyway', 'looked-at', 'as-of']) expect(text).toContain(option)
      },
    )
  }

  it('offers commands, kinds, options and choices in bash', () => {
    const root = makeLedger()
    expect(bash(['rowbook', 'no'], root)).toEqual(['note'])
    expect(bash(['rowbook', 'note', 'spr'], root)).toEqual(['spray', 'sprayer'])
    expect(bash(['rowbook', 'note', 'spray', '--sprayer-', ''], root)).toContain('--block')
    expect(bash(['rowbook', 'check', '--units', ''], root)).toEqual(['metric', 'us', 'imperial', 'uk'])
  })

  it('offers ids and seasons of the ledger, also of the one named', () => {
    const root = makeLedger()
    mkdirSync(join(root, 'seasons/2026'), { recursive: true })
    expect(bash(['rowbook', 'note', 'spray', '--block', ''], root)).toEqual(['lower', 'upper'])
    expect(bash(['rowbook', 'note', 'spray', '--product', 'su'], root)).toEqual(['sulphur'])
    expect(bash(['rowbook', 'check', '--ledger', root, '--season', ''], '/')).toEqual(['2026'])
  })

  it('is silent where there is no ledger, or no such folder', () => {
    const nowhere = mkdtempSync(join(tmpdir(), 'rowbook-nowhere-'))
    expect(bash(['rowbook', 'note', 'spray', '--block', ''], nowhere)).toEqual([])
    expect(run(['completion', '--words', 'seasons', '--ledger', makeLedger()])).toEqual({
      status: 0,
      stdout: '',
      stderr: '',
    })
  })

  it.skipIf(!has('fish'))('offers the same in fish (skipped without fish)', () => {
    const root = makeLedger()
    const ask = `source '${script('fish')}'; complete -C 'rowbook note spray --block u'; complete -C 'rowbook note sc'`
    const { stdout } = spawnSync('fish', ['--no-config', '-c', ask], {
      cwd: root,
      encoding: 'utf8',
      env: { PATH: `${binFolder()}:${process.env.PATH}`, HOME: tmpdir() },
    })
    expect(stdout).toMatch(/^upper\b/m)
    expect(stdout).toMatch(/^scouting$/m)
  })

  it.skipIf(!has('zsh') || !hasTmux)(
    'completes in a zsh at a terminal (skipped without zsh or tmux)',
    async () => {
      const root = makeLedger()
      const at = new Terminal(root)
      try {
        at.type("PS1='zsh> ' zsh -f")
        await at.see(/^zsh>/m)
        at.type(
          `PATH='${binFolder()}':$PATH; autoload -Uz compinit && compinit -D -u; source '${script('zsh')}'; echo set-$((1 + 1))`,
        )
        await at.see(/^set-2$/m)
        at.write('rowbook note spr\t')
        await at.see(/zsh> rowbook note spray ?$/m)
        at.write(' --sprayer mou\t')
        await at.see(/--sprayer mounted/)
        at.write('--block lo\t')
        await at.see(/--block lower/)
      } finally {
        at.close()
      }
    },
    90_000,
  )

  it('answers within a second, though Node has to start', () => {
    const root = makeLedger()
    run(['completion', '--words', 'blocks', '--ledger', root])
    const times = [1, 2, 3].map(() => {
      const start = performance.now()
      run(['completion', '--words', 'blocks', '--ledger', root])
      return performance.now() - start
    })
    expect(Math.min(...times)).toBeLessThan(1000)
  })

  it('asks which shell', () => {
    expect(run(['completion'])).toMatchObject({ status: 2 })
    expect(run(['completion', 'tcsh']).stderr).toContain('bash, zsh, fish')
  })
})
