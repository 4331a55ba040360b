import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { COMMAND_NAMES, commandNamed } from './table.ts'

export const manual: CommandBody = {
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
  async run(call, commands) {
    const [{ version }, render] = await Promise.all([
      import('../../package.json'),
      import('./reference/manual-pages.ts'),
    ])
    const [word] = call.args
    const name = commandNamed(word)
    const { out, columns } = call.env
    if (call.flag('man')) out(render.renderManPage(await commands(), version))
    else if (call.flag('all')) out((await commands()).map(render.renderReference).join('\n'))
    else if (word === undefined) out(render.renderManualIndex(columns))
    else if (name !== undefined) out((await commands([name])).map(render.renderReference).join('\n'))
    else {
      const { nearest } = await import('../ledger/read/read-entry.ts')
      const near = nearest(word, COMMAND_NAMES) ?? `commands: ${COMMAND_NAMES.join(', ')}`
      throw new UsageError(`there is no command \`${word}\``, near)
    }
    return 0
  },
}
