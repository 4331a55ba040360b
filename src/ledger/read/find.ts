import { lstatSync, realpathSync, statSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { UserError } from '../../records/user-error.ts'
import { CannotRead, diskFault, isAbsent } from './cannot-read.ts'

/** The ledger can't be opened at all: nothing there, or nothing readable. */
export class NoLedger extends UserError {}

/**
 * The folder of the ledger: the one named, or the nearest with a `vineyard.yaml`, from `cwd` upwards.
 * @throws NoLedger where there is none; CannotRead where that can't be determined.
 */
export function findLedger(cwd: string, named?: string): string {
  if (named !== undefined) {
    const folder = resolve(cwd, named)
    if (!isFolder(folder)) throw new NoLedger(`there is no folder ${named}`, 'check the path after --ledger')
    if (!isLedger(folder)) {
      throw new NoLedger(
        `${named} has no vineyard.yaml, so it is no ledger`,
        `begin one there with \`rowbook start ${named}\``,
      )
    }
    return realpathSync(folder)
  }
  for (let folder = resolve(cwd); ; folder = dirname(folder)) {
    if (isLedger(folder)) return realpathSync(folder)
    if (dirname(folder) === folder) break
  }
  throw new NoLedger(
    'no vineyard.yaml here or in any folder above',
    'go into your ledger, name it with --ledger DIR, or begin one with `rowbook start DIR`',
  )
}

const isFolder = (path: string): boolean => isThere(path, () => statSync(path).isDirectory())

/** Whether a folder holds a `vineyard.yaml`. @throws CannotRead where that can't be determined. */
export const isLedger = (folder: string): boolean =>
  isThere(folder, () => Boolean(lstatSync(join(folder, 'vineyard.yaml'))))

function isThere(folder: string, look: () => boolean): boolean {
  try {
    return look()
  } catch (error) {
    if (isAbsent(error)) return false
    const { what, help } = diskFault(error)
    throw new CannotRead(`the folder ${folder} can't be read: ${what}`, help)
  }
}
