import { closeSync, lstatSync, mkdirSync, openSync, writeSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { NoHistory, type Repository, runGit } from './git.ts'

/**
 * Writes a hook that looks at what changed in the book before each commit, and stops the commit at an error.
 * @returns the path of the hook.
 * @throws NoHistory where a hook of that name stands already, which is left as it is, or none can be written.
 */
export function writeHook(repository: Repository): string {
  const answer = runGit(repository, ['rev-parse', '--git-common-dir']).toString('utf8').replace(/\n$/, '')
  const folder = join(resolve(repository.root, answer), 'hooks')
  const path = join(folder, 'pre-commit')
  const way = 'add `rowbook check --changed` to it yourself'
  if (isThere(path)) throw new NoHistory(`${path} is there already; nothing was written`, way)
  try {
    mkdirSync(folder, { recursive: true })
    const handle = openSync(path, 'wx', 0o755)
    try {
      writeSync(handle, hookText(repository.prefix))
    } finally {
      closeSync(handle)
    }
  } catch (error) {
    throw new NoHistory(`${path} could not be written (${(error as NodeJS.ErrnoException).code})`, way)
  }
  return path
}

/** A shell script for git, which runs it in the top folder of the repository. */
export function hookText(prefix: string): string {
  const folder = `./${prefix}`.replaceAll("'", "'\\''")
  return `#!/bin/sh
# Looks at what changed in the book before it is committed. Delete this file to be rid of it.
cd '${folder}' || exit 1
if ! command -v rowbook >/dev/null 2>&1; then
  echo 'rowbook is not on the path, so the book was not checked' >&2
  exit 0
fi
exec rowbook check --changed
`
}

function isThere(path: string): boolean {
  try {
    lstatSync(path)
    return true
  } catch {
    return false
  }
}
