import { highest } from '../../agronomy/statistics/extremes.ts'
import { renderLines, wrap } from '../../render/text.ts'
import { TABLE } from '../table.ts'

const COMMANDS = [...TABLE, ['help [command]', 'show help for a command']] as const

const LONGEST = highest(COMMANDS.map(([usage]) => usage.length))

/** The help of all commands, made from the table alone. */
export const renderHelp = (columns: number): string => `Usage: rowbook [options] [command]

${wrap('Vineyard records in plain text files.', columns)}

Options:
${renderLines(
  [
    ['--version'.padEnd(LONGEST), 'print the version'],
    ['-h, --help'.padEnd(LONGEST), 'show help'],
  ],
  columns,
)}

Commands:
${renderLines(COMMANDS, columns)}
`
