import { words } from '../../render/columns.ts'
import { renderTable } from '../../render/table.ts'

/** The kinds of record that have a schema, and which files hold them. */
export function renderSchemaKinds(
  kinds: readonly { name: string; files: readonly string[] }[],
  columns: number,
): string {
  const table = renderTable(
    kinds,
    [words('kind', ({ name }) => name), words('files', ({ files }) => files.join(', '))],
    columns,
  )
  return `${kinds.length} kinds of record have a schema; \`rowbook schema KIND\` prints one.\n\n${table}`
}
