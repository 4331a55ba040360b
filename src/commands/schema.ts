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
    const [{ makeReport }, { SCHEMA_KINDS, schemaOf }, { renderSchemaKinds }] = await Promise.all([
      import('../facts/report.ts'),
      import('../reports/schema/report.ts'),
      import('../reports/schema/terminal.ts'),
    ])
    const [name] = call.args
    const from = { asOf: await call.reportDay(), season: null }
    if (name === undefined) {
      const kinds = SCHEMA_KINDS.map(({ name, files }) => ({ name, files }))
      return call.print(makeReport('schema', from, { data: { kinds } }), () => renderSchemaKinds(kinds))
    }
    const known = SCHEMA_KINDS.map((kind) => kind.name)
    if (!known.includes(name)) {
      const { nearest } = await import('../ledger/read/read-entry.ts')
      throw new UsageError(
        `there is no kind of record \`${name}\``,
        nearest(name, known) ?? `kinds: ${known.join(', ')}`,
      )
    }
    const text = await toJson(schemaOf(name))
    const data = { kind: name, schema: schemaOf(name) }
    return call.print(makeReport('schema', from, { data }), () => text)
  },
}

async function write(call: Call): Promise<number> {
  const [{ findLedger }, { replaceFiles, standsAlready }, { EDITOR_SETTINGS, schemaFiles }] =
    await Promise.all([
      import('../ledger/read/find.ts'),
      import('../ledger/write/write.ts'),
      import('../reports/schema/report.ts'),
    ])
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
