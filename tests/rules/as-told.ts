import type { Finding } from '../../src/ledger/read/finding.ts'

/** A finding as a grower reads it: place, words and the way out. */
export const asTold = ({ file, line, column, level, name, message, help }: Finding): string =>
  `${file}:${line}:${column} ${level} ${name}\n  ${message}\n  ${help}\n`
