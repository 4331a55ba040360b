import { existsSync } from 'node:fs'
import { basename, resolve } from 'node:path'
import type { Call } from './plumbing/call.ts'
import type { CommandBody } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const start: CommandBody = {
  arguments: [{ what: 'folder to make it in' }],
  options: [
    { flags: '--name NAME', what: 'name of the vineyard' },
    { flags: '--latitude DEGREES', what: 'degrees north; negative in the south' },
    { flags: '--timezone ZONE', what: "IANA time zone, else this machine's" },
    { flags: '--hook', what: 'let git check the book before each commit, where DIR is in a repository' },
  ],
  examples: [
    ['rowbook start my-vineyard', 'a new book in my-vineyard/'],
    ['rowbook start my-vineyard --name "Brook Rows" --latitude 51.2', 'with the site filled in'],
    [
      'rowbook start my-vineyard --hook',
      'with a look at the book before each commit; also for a book that stands',
    ],
  ],
  async run(call) {
    const [{ starterFiles }, { layOut }, { seasonOf }, { isTimeZone }, { schemaFiles }] = await Promise.all([
      import('../ledger/write/starter-files.ts'),
      import('../ledger/write/start.ts'),
      import('../ledger/read/seasons.ts'),
      import('../records/clock.ts'),
      import('../reports/schema/report.ts'),
    ])
    const folder = call.args[0]!
    if (call.flag('hook') && existsSync(resolve(call.env.cwd, folder, 'vineyard.yaml')))
      return hook(call, folder)
    const latitude = call.number('latitude', -90, 90)
    const timezone = call.text('timezone') ?? call.env.zone
    if (!isTimeZone(timezone))
      throw new UsageError(`\`${timezone}\` is not a time zone`, 'write an IANA name, like Europe/Berlin')
    const site = { latitude: latitude ?? 50 }
    const files = starterFiles({
      name: call.text('name') ?? basename(resolve(call.env.cwd, folder)),
      latitude: site.latitude,
      latitudeGiven: latitude !== undefined,
      timezone,
      units: (call.text('units') as 'metric' | undefined) ?? 'metric',
      season: seasonOf(site, call.date('as-of') ?? call.env.today(timezone)) - 1,
    })
    const forEditors = Object.fromEntries(schemaFiles().map(({ file, text }) => [file, text]))
    const { uninterrupted } = await import('./plumbing/uninterrupted.ts')
    const all = { ...files, ...forEditors }
    uninterrupted(() => layOut(resolve(call.env.cwd, folder), { shown: folder, files: all }))
    const { renderStart } = await import('../reports/start/terminal.ts')
    call.env.out(
      renderStart({
        folder,
        files: Object.keys(files),
        latitudeGiven: latitude !== undefined,
        columns: call.env.columns,
      }),
    )
    return call.flag('hook') ? hook(call, folder) : 0
  },
}

/** Writes the hook into the repository that the ledger lies in. */
async function hook(call: Call, folder: string): Promise<number> {
  const [{ openRepository }, { writeHook }, { safeLine }] = await Promise.all([
    import('../ledger/git/repository.ts'),
    import('../ledger/git/hook.ts'),
    import('../render/safe.ts'),
  ])
  const repository = await openRepository({
    root: resolve(call.env.cwd, folder),
    variables: call.env.variables,
  })
  const path = await writeHook(repository)
  call.env.out(`Before each commit git now runs \`rowbook check --staged\`: ${safeLine(path)}\n`)
  return 0
}
