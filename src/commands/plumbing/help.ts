import { highest } from '../../agronomy/statistics/extremes.ts'
import { renderLines, wrap } from '../../render/text.ts'
import { TABLE } from '../table.ts'

const OPTIONS = [
  ['--version', 'print the version'],
  ['-h, --help', 'show help'],
] as const

/** The help of all commands, made from the table alone. */
export function renderHelp(columns: number): string {
  const commands = TABLE.map(({ name, summary, ...more }): [string, string] => [
    [name, ...('forms' in more ? more.forms : [])].join(' '),
    summary,
  ])
  commands.push(['help [command]', 'show help for a command'])
  const longest = highest(commands.map(([line]) => line.length))
  const options = OPTIONS.map(([line, does]) => [line.padEnd(longest), does] as const)
  return `Usage: rowbook [options] [command]

${wrap('Vineyard records in plain text files.', columns)}

Options:
${renderLines(options, columns)}

Commands:
${renderLines(commands, columns)}
`
}
