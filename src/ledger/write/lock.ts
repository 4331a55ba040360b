import { readFileSync } from 'node:fs'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { type Disk, faultCode, realDisk } from '../read/disk.ts'
import { attempt, failed, takeName, temporaryName, WriteFailed, writeWhole } from './write.ts'

/** The hidden lock in a folder while one of its files is being changed. */
const NAME = '.rowbook-lock'

/**
 * Does some work while no other rowbook works under the same lock in the folder, which must exist.
 * A lock left by a killed run on this machine is taken over.
 * @throws WriteFailed where another run holds the lock, or the disk refuses; and whatever the work throws.
 */
export function whileLocked<T>(folder: string, shown: string, work: () => T, disk: Disk = realDisk): T {
  const lock = join(folder, NAME)
  const temporary = join(folder, temporaryName())
  try {
    writeWhole(temporary, `${process.pid} ${hostname()}\n`, disk)
    if (!takeName(temporary, lock, disk) && !(isLeft(lock) && takeOver(temporary, lock, disk)))
      throw new WriteFailed(
        `another rowbook is writing ${shown}; nothing was written`,
        'run the same command again when it is done',
      )
  } catch (error) {
    throw failed(error, shown)
  } finally {
    attempt(() => disk.unlink(temporary))
  }
  try {
    return work()
  } finally {
    attempt(() => disk.unlink(lock))
  }
}

/** Whether the process that made the lock ran on this machine and is gone. */
function isLeft(lock: string): boolean {
  try {
    const [pid, host] = readFileSync(lock, 'utf8').trim().split(' ')
    if (host !== hostname() || !/^\d{1,10}$/.test(pid ?? '')) return false
    process.kill(Number(pid), 0)
    return false
  } catch (error) {
    return faultCode(error) === 'ESRCH'
  }
}

function takeOver(temporary: string, lock: string, disk: Disk): boolean {
  attempt(() => disk.unlink(lock))
  return takeName(temporary, lock, disk)
}
