import { realpathSync } from 'node:fs'
import { dirname, isAbsolute, join, relative, resolve } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import { allOrNone } from '../write/new-files.ts'
import { NameTaken } from '../write/write.ts'
import type { Repository } from './repository.ts'
import { askGit, configured, NoHistory, type Place } from './run.ts'

const WAY = 'add `rowbook check --staged` to it yourself'

/**
 * Writes a hook that checks what is about to be committed and stops the commit at an error. It goes where git
 * looks for hooks, but never into a folder that other repositories may share.
 * @returns the path of the hook.
 * @throws NoHistory where a hook of that name exists, which is left as it is; WriteFailed where the disk
 * refuses, and then nothing is left behind.
 */
export async function writeHook(repository: Repository, disk: Disk = realDisk): Promise<string> {
  const folder = await hooksFolder(repository)
  const path = join(folder, 'pre-commit')
  try {
    allOrNone((files) => {
      files.makeRoot(folder, folder)
      files.add({ root: folder, file: 'pre-commit', shown: path, mode: 0o755 }, hookText(repository.prefix))
    }, disk)
  } catch (error) {
    if (error instanceof NameTaken) throw new NoHistory(error.message, WAY)
    throw error
  }
  return path
}

/** Where git looks for the hooks of this repository: `core.hooksPath`, else beside its other files. */
async function hooksFolder(place: Place): Promise<string> {
  // Asked one at a time, since a folder's name may contain a line break.
  const ask = async (what: string) => (await askGit(place, ['rev-parse', what])).slice(0, -1)
  const [top, common] = await Promise.all([ask('--show-toplevel'), ask('--git-common-dir')])
  const files = resolve(place.root, common)
  const named = await configured(place, 'core.hooksPath')
  if (named === null) return join(files, 'hooks')
  const folder = resolve(top, named)
  if ([top, files].some((own) => isInside(realFolder(folder), realFolder(own)))) return folder
  throw new NoHistory(
    `git looks for hooks in ${folder} (core.hooksPath), outside of this repository; nothing was written`,
    'add `rowbook check --staged` to the hook there yourself, for this ledger only',
  )
}

function isInside(path: string, folder: string): boolean {
  const way = relative(folder, path)
  return !isAbsolute(way) && way.split(/[\\/]/)[0] !== '..'
}

/** The real path of a folder, with links resolved; for one that doesn't exist yet, through its parent. */
function realFolder(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    return dirname(path) === path ? path : join(realFolder(dirname(path)), relative(dirname(path), path))
  }
}

/** A shell script for git, which runs it in the top folder of the repository. */
function hookText(prefix: string): string {
  const folder = `./${prefix}`.replaceAll("'", "'\\''")
  return `#!/bin/sh
# Checks what is about to be committed to the ledger. Delete this file to be rid of it.
case "$GIT_INDEX_FILE" in
'' | /* | ?:*) ;;
*) GIT_INDEX_FILE="$PWD/$GIT_INDEX_FILE" && export GIT_INDEX_FILE ;;
esac
cd '${folder}' || exit 1
if ! command -v rowbook >/dev/null 2>&1; then
  echo 'rowbook is not on the path, so the ledger was not checked' >&2
  exit 0
fi
rowbook check --staged
status=$?
if [ "$status" -ne 0 ]; then
  echo 'Nothing was committed. The staged files were checked: correct the file, git add it again, then commit.' >&2
fi
exit "$status"
`
}
