import { Document, isCollection, isMap, isScalar, isSeq, visit } from 'yaml'

/** An entry as plain data: what `toPlain` reads from a file, and what a file is written from. */
export type PlainEntry = { [key: string]: PlainValue }
export type PlainValue = string | number | boolean | PlainEntry | PlainValue[]

/** A decimal number with trailing zeros, which keep its precision. */
const LONG_NUMBER = /^-?(?:0|[1-9]\d*)\.\d*0$/

/** A number as typed: `19.0` stays text, so it keeps its zero in the file and is read back as a number. */
export function writtenNumber(text: string): string | number {
  const plain = text.replace(/^\+/, '').replace(/^(-?)\./, '$10.')
  return LONG_NUMBER.test(plain) ? plain : Number(plain)
}

/**
 * The YAML text of one entry: its keys in the given order, one to a line, short lists and maps in
 * brackets after their key; a list of maps has one line for each. Reading it back gives the same entry.
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
  visit(document, {
    Scalar(_, scalar) {
      if (!isScalar(scalar) || typeof scalar.value !== 'string' || !LONG_NUMBER.test(scalar.value)) return
      scalar.minFractionDigits = scalar.value.split('.')[1]!.length
      scalar.value = Number(scalar.value)
    },
  })
  const flat = Array.isArray(value) && value.every((item) => typeof item !== 'object')
  return document.toString({ lineWidth: 0, flowCollectionPadding: !flat })
}
