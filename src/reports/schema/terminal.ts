import { renderTable } from '../../render/table.ts'

/** The kinds of record that have a schema, and which files hold them. */
export function renderSchemaKinds(kinds: readonly { name: string; files: readonly string[] }[]): string {
  const rows = kinds.map(({ name, files }) => [name, files.join(', ')])
  const table = renderTable(['kind', 'files'], rows)
  return `${kinds.length} kinds of record have a schema; \`rowbook schema KIND\` prints one.\n\n${table}`
}
