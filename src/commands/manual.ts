import {
  COMMON_OPTIONS,
  type Command,
  type CommandBody,
  HTML_OPTIONS,
  optionsOf,
} from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import type { Manual } from './plumbing/manual-pages.ts'

/** @param table every command, asked for only when it is run. */
export const manualCommand = (table: () => Promise<readonly Command[]>): CommandBody => ({
  arguments: [{ what: 'the command to read about; without it all are listed' }],
  options: optionsOf([
    ['--man', 'print the man page of all commands, in roff'],
    ['--all', 'print the reference of all commands, as Markdown'],
  ]),
  examples: [
    ['rowbook manual mix', 'the reference of one command'],
    ['rowbook manual --man | man -l -', 'read the man page'],
    ['rowbook manual --man > ~/.local/share/man/man1/rowbook.1', 'keep it where `man rowbook` finds it'],
  ],
  async run(call) {
    const [{ version }, render] = await Promise.all([
      import('../../package.json'),
      import('./plumbing/manual-pages.ts'),
    ])
    const all = manualOf(await table(), version)
    const name = call.args[0]
    if (call.flag('man')) call.env.out(render.renderManPage(all))
    else if (call.flag('all'))
      call.env.out(all.commands.map((entry) => render.renderReference(entry, all.common)).join('\n'))
    else if (name === undefined) call.env.out(render.renderManualIndex(all, call.env.columns))
    else {
      const entry = all.commands.find((one) => one.name === name)
      if (!entry) {
        const { nearest } = await import('../ledger/read/read-entry.ts')
        const names = all.commands.map((one) => one.name)
        throw new UsageError(
          `there is no command \`${name}\``,
          nearest(name, names) ?? `commands: ${names.join(', ')}`,
        )
      }
      call.env.out(render.renderReference(entry, all.common))
    }
    return 0
  },
})

/** The table of commands as the manual takes it. */
function manualOf(commands: readonly Command[], version: string): Manual {
  return {
    version,
    common: COMMON_OPTIONS,
    commands: commands.map(({ name, summary, arguments: args, options = [], examples, html }) => ({
      name,
      summary,
      arguments: args,
      options: [...options, ...(html ? HTML_OPTIONS : [])],
      examples,
    })),
  }
}
