import { version } from '../../package.json'
import { nearest } from '../ledger/read/read-entry.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { renderManPage, renderManualIndex, renderReference } from './reference/manual-pages.ts'
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
    const [word] = call.args
    const name = commandNamed(word)
    const { out, columns } = call.env
    if (call.flag('man')) out(renderManPage(await commands(), version))
    else if (call.flag('all')) out((await commands()).map(renderReference).join('\n'))
    else if (word === undefined) out(renderManualIndex(columns))
    else if (name !== undefined) out((await commands([name])).map(renderReference).join('\n'))
    else {
      const near = nearest(word, COMMAND_NAMES) ?? `commands: ${COMMAND_NAMES.join(', ')}`
      throw new UsageError(`there is no command \`${word}\``, near)
    }
    return 0
  },
}
