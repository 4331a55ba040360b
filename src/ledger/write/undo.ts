import { dirname, join } from 'node:path'
import { type Disk, realDisk } from '../read/disk.ts'
import { readText } from '../read/read-file.ts'
import { hashOf, KEPT, keepCopy, type LastWritten, lastWritten, mayBeNew, remember } from './kept.ts'
import { whileLocked } from './lock.ts'
import { makeFolder, replaceFile, syncFolder, WriteFailed } from './write.ts'

/** What undoing would do, or has done, to a file. */
interface Undoing {
  file: string
  /** What it holds. */
  text: string
  /** Its text after undoing; null where it is removed. */
  back: string | null
}

/**
 * What undoing the last write would do. Only files still exactly as the program wrote them are undone.
 * @throws WriteFailed where nothing is recorded, or a file has changed since, with what to do
 */
export function planUndo(root: string): Undoing[] {
  const last = lastWritten(root)
  if (!last)
    throw new WriteFailed(
      'no entry is known here that rowbook wrote last, so nothing was taken back',
      'delete the file yourself, or change it with `rowbook note --amend FILE`',
    )
  if (last.did === 'undone') {
    const [first] = last.files
    throw new WriteFailed(
      `the last entry was taken back already${first ? `: ${first.file}` : ''}`,
      first ? `to have it again, move ${first.kept} to ${first.file}` : 'write it again',
    )
  }
  const found = last.did === 'new' ? created(root, last) : changedBack(root, last)
  if (found.length === 0)
    throw new WriteFailed(
      'the last entry that rowbook wrote is no longer there, so nothing was taken back',
      `look in ${KEPT}, or in git: \`git log --diff-filter=D --name-only\``,
    )
  return found
}

function created(root: string, { files }: Extract<LastWritten, { did: 'new' }>): Undoing[] {
  return files.flatMap((one): Undoing[] => {
    const names = mayBeNew(root, one)
    for (const file of names) {
      const { text } = readText(root, file)
      if (text !== undefined && hashOf(text) === one.hash) return [{ file, text, back: null }]
    }
    if (names[0] !== undefined) throw changed(names[0])
    return []
  })
}

/** The files that were changed, an entry or the weather of an import, with what they held before. */
function changedBack(root: string, last: Extract<LastWritten, { did: 'imported' | 'amended' }>): Undoing[] {
  const files = last.did === 'amended' ? [{ ...last, length: 0 }] : last.files
  return files.flatMap(({ file, before, after, length, kept }): Undoing[] => {
    const { text } = readText(root, file)
    const now = text === undefined ? null : hashOf(text)
    // Of several seasons, one may have been left unwritten.
    if (now === before && last.did === 'imported') return []
    if (now === before)
      throw new WriteFailed(
        `${file} holds what it held before the last change`,
        'there is nothing to take back',
      )
    if (text === undefined || now !== after) throw changed(file)
    const back = kept === null ? text.slice(0, length) : (readText(root, kept).text ?? '')
    if (before !== null && hashOf(back) !== before) throw gone(file, kept ?? file)
    return [{ file, text, back: before === null ? null : back }]
  })
}

const gone = (file: string, kept: string) =>
  new WriteFailed(
    `what ${file} held before is no longer in ${kept}`,
    `look for it with \`git log -p -- ${file}\``,
  )

const changed = (file: string) =>
  new WriteFailed(
    `${file} is not as rowbook wrote it, so nothing was taken back`,
    `${file.endsWith('.csv') ? 'delete those rows' : `change it with \`rowbook note --amend ${file}\`, or delete it`} yourself; \`git diff -- ${file}\` shows what changed`,
  )

/**
 * Undoes what was planned: keeps a copy of each file, and only then removes it or restores its earlier text.
 * @returns the path of each kept copy, relative to the ledger
 * @throws WriteFailed where a file has changed since the plan, or the disk refuses
 */
export function takeBack(root: string, plan: readonly Undoing[], disk: Disk = realDisk): string[] {
  const folder = makeFolder(root, KEPT, disk)
  return whileLocked(
    folder,
    'what it keeps',
    () => {
      const kept = plan.map(({ file, text }) => keepCopy(root, file, text, disk))
      for (const { file, text, back } of plan) {
        const isAsSeen = () => readText(root, file).text === text
        if (back !== null) replaceFile(root, file, back, { disk, isAsSeen })
        else if (isAsSeen()) takeAway(root, file, disk)
        else throw changed(file)
      }
      const files = plan.map(({ file }, at) => ({ file, kept: kept[at]! }))
      remember(root, { did: 'undone', files }, disk)
      return kept
    },
    disk,
  )
}

function takeAway(root: string, file: string, disk: Disk): void {
  const path = join(root, file)
  try {
    disk.unlink(path)
  } catch (error) {
    throw new WriteFailed(`${file} could not be taken away`, `${String(error)}: check the folder`)
  }
  syncFolder(dirname(path), disk, file)
}
