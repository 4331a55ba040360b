import { readdirSync } from 'node:fs'
import { join } from 'node:path'

/** The file name of a record: its id, as `ID_SHAPE` has it, without loading the schemas. */
const ID_NAME = /^([a-z0-9]+(?:-[a-z0-9]+)*)\.yaml$/

/** Ids of a kind of record, or the seasons, from the names in their folder; no file is read. */
export function namesIn(root: string, kind: string): string[] {
  const entries = readdirSync(join(root, kind))
  const names =
    kind === 'seasons'
      ? entries.filter((name) => /^\d{4}$/.test(name))
      : entries.flatMap((name) => ID_NAME.exec(name)?.[1] ?? [])
  return names.sort()
}
