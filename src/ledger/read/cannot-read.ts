import { UserError } from '../../records/user-error.ts'
import { faultCode } from './disk.ts'

/** Part of a ledger can't be read, so no report is given: what it would leave out is unknown, not absent. */
export class CannotRead extends UserError {}

const FAULTS: Readonly<Record<string, readonly [what: string, help: string]>> = {
  EACCES: ['permission denied', 'check who owns it and its permissions'],
  EPERM: ['permission denied', 'check who owns it and its permissions'],
  EIO: ['the disk failed', 'check the disk and its cable, then run the command again'],
  EMFILE: ['too many files are open', 'close other programs, then run the command again'],
  ENFILE: ['too many files are open', 'close other programs, then run the command again'],
  ESTALE: ['the network drive has lost it', 'connect the drive again, then run the command again'],
  ENOENT: ['no such file', 'check its name'],
}

/** A disk fault in words, with its system name, and what to do about it. */
export function diskFault(error: unknown): { what: string; help: string } {
  const code = faultCode(error)
  const [what, help] = FAULTS[code] ?? [
    'the disk gives a fault',
    'check the disk, then run the command again',
  ]
  return { what: code === 'ENOENT' ? what : `${what} (${code})`, help }
}

/** @param path relative to the ledger; `''` is the ledger itself. */
export function cannotRead(path: string, error: unknown): CannotRead {
  const { what, help } = diskFault(error)
  return new CannotRead(`${path || 'the ledger folder'} can't be read: ${what}; nothing was calculated`, help)
}

/** Whether a fault means that nothing exists at the path. */
export const isAbsent = (error: unknown): boolean => ['ENOENT', 'ENOTDIR'].includes(faultCode(error))
