import { makeReport } from '../facts/report.ts'
import { findLedger } from '../ledger/read/find.ts'
import { nearest } from '../ledger/read/read-entry.ts'
import { replaceFiles, standsAlready } from '../ledger/write/write.ts'
import { EDITOR_SETTINGS, SCHEMA_KINDS, schemaFiles, schemaOf } from '../reports/schema/report.ts'
import { renderSchemaKinds } from '../reports/schema/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { toJson } from './plumbing/json.ts'

export const schema: CommandBody = {
  arguments: [{ what: 'spray, block and so on; without it the kinds are listed' }],
  options: optionsOf([['--write', "write all into the ledger's .rowbook/schema, and settings for editors"]]),
  examples: [
    ['rowbook schema', 'which kinds there are'],
    ['rowbook schema spray', 'the schema of a spray'],
    ['rowbook schema --write', 'update the schemas for your editor'],
  ],
  async run(call) {
    if (call.flag('write')) return write(call)
    const [name] = call.args
    const from = { asOf: call.reportDay(), season: null }
    if (name === undefined) {
      const kinds = SCHEMA_KINDS.map(({ name, files }) => ({ name, files }))
      return call.print(makeReport('schema', from, { data: { kinds } }), (_, { columns }) =>
        renderSchemaKinds(kinds, columns),
      )
    }
    const known = SCHEMA_KINDS.map((kind) => kind.name)
    if (!known.includes(name)) {
      throw new UsageError(
        `there is no kind of record \`${name}\``,
        nearest(name, known) ?? `kinds: ${known.join(', ')}`,
      )
    }
    const text = toJson(schemaOf(name))
    const data = { kind: name, schema: schemaOf(name) }
    return call.print(makeReport('schema', from, { data }), () => text)
  },
}

function write(call: Call): number {
  const root = findLedger(call.env.cwd, call.text('ledger'))
  const keeps = standsAlready(root, EDITOR_SETTINGS)
  replaceFiles(
    root,
    schemaFiles().filter(({ file }) => !keeps || file !== EDITOR_SETTINGS),
  )
  call.env.out('Written: .rowbook/schema, one schema for each kind of record.\n')
  if (keeps)
    call.env.out(
      `Left as it is: ${EDITOR_SETTINGS}; files that \`rowbook note\` writes name their schema themselves.\n`,
    )
  return 0
}
