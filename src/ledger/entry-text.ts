import { Document, isCollection, isMap, isSeq } from 'yaml'

/** An entry as plain data: what `toPlain` gives of a file, and what a file is written from. */
export type PlainEntry = { [key: string]: PlainValue }
export type PlainValue = string | number | boolean | PlainEntry | PlainValue[]

/**
 * The YAML text of one entry: its keys in the order given, each on a line of its own, short lists and maps in
 * brackets behind their key; a list of maps has one line for each. Reading it back gives the same entry.
 * @param schema path of the JSON Schema for editors, from the file's own folder.
 */
export function entryText(entry: PlainEntry, schema?: string): string {
  const lines = Object.entries(entry).map(([key, value]) => keyText(key, value))
  const head = schema === undefined ? '' : `# yaml-language-server: $schema=${schema}\n`
  return head + lines.join('')
}

function keyText(key: string, value: PlainValue): string {
  const document = new Document({ [key]: value }, { version: '1.2', schema: 'core' })
  const node = isMap(document.contents) ? document.contents.items[0]?.value : null
  if (isSeq(node) && node.items.length > 0 && node.items.every((item) => isMap(item))) {
    for (const item of node.items) if (isMap(item)) item.flow = true
  } else if (isCollection(node)) node.flow = true
  const flat = Array.isArray(value) && value.every((item) => typeof item !== 'object')
  return document.toString({ lineWidth: 0, flowCollectionPadding: !flat })
}
