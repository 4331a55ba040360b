import { renderLines, wrap, wrapCommand } from '../../render/text.ts'
import { COMMON_OPTIONS, type Command } from '../plumbing/command.ts'
import { COMMAND_NAMES, TABLE } from '../table.ts'

const ABOUT =
  'Vineyard records in plain text files: a folder of YAML, called the ledger. Reports go to stdout, everything else to stderr. Nothing is sent or fetched.'

const STATUS: readonly (readonly [string, string])[] = [
  ['0', 'done'],
  ['1', 'done, and something in the ledger is wrong or a check before picking failed'],
  ['2', "usage error, or the ledger can't be read"],
  ['70', 'a fault of the program itself'],
]

const CAUTION =
  'The label and the local rules decide. Where they ask for a certificate or a licensed adviser, rowbook replaces neither.'

/** Columns of a reference page, where list items continue two columns further in. */
const WIDTH = 78

/** Text escaped for roff, so that backslashes and hyphens print as they are and no line is taken for a request. */
function roff(text: string): string {
  return text
    .replace(/\\/g, '\\e')
    .replace(/-/g, '\\-')
    .replace(/^([.'])/gm, '\\&$1')
}

/** Columns of roff source; with escapes added, its lines still fit a screen. */
const SOURCE = 72
const prose = (text: string) => roff(wrap(text, SOURCE))

const term = (name: string, what: string) => `.TP\n.B ${roff(name)}\n${prose(what)}\n`

/** The man page of all commands, in the man macros of roff. */
export function renderManPage(commands: readonly Command[], version: string): string {
  const parts = commands.map(
    ({ name, summary, arguments: args, options, examples }) =>
      `.SS ${roff([name, ...args.map(({ form }) => form)].join(' '))}\n${prose(summary)}\n${args.map(({ form, what }) => term(form, what)).join('')}${options.map(({ flags, what }) => term(flags, what)).join('')}${examples.map(([line, does]) => `.PP\n${prose(`${does}:`)}\n.PP\n.RS 4\n.nf\n${roff(wrapCommand(line, SOURCE, ''))}\n.fi\n.RE\n`).join('')}`,
  )
  return `.TH ROWBOOK 1 "" "rowbook ${roff(version)}"
.SH NAME
rowbook \\- vineyard records in plain text files
.SH SYNOPSIS
.B rowbook
.I COMMAND
[\\fIARGUMENT\\fR...] [\\fIOPTION\\fR...]
.SH DESCRIPTION
${prose(ABOUT)}
.SH OPTIONS OF EVERY COMMAND
${COMMON_OPTIONS.map(({ flags, what }) => term(flags, what)).join('')}.SH COMMANDS
${parts.join('')}.SH EXIT STATUS
${STATUS.map(([status, what]) => term(status, what)).join('')}.SH FILES
${term('vineyard.yaml', 'the site; the folder that holds it is the ledger')}${term('blocks/, varieties/, products/, sprayers/', 'one file each')}${term('seasons/YEAR/', 'what was done and seen, by kind, and weather.csv')}.SH CAUTION
${prose(CAUTION)}
`
}

/** The reference page of one command, as Markdown. */
export function renderReference(entry: Command): string {
  const item = (name: string, what: string) =>
    `${wrap(`- \`${name}\`: ${what}`, WIDTH).replaceAll('\n', '\n  ')}\n`
  const list = (rows: readonly { flags: string; what: string }[]) =>
    rows.map(({ flags, what }) => item(flags, what)).join('')
  const forms = entry.arguments.map(({ form }) => ` ${form}`).join('')
  const given = entry.arguments.map(({ form, what }) => item(form, what)).join('')
  return `# rowbook ${entry.name}

${wrap(`${entry.summary[0]!.toUpperCase()}${entry.summary.slice(1)}.`, WIDTH)}

    rowbook ${entry.name}${forms} [OPTION...]

${given === '' ? '' : `${given}\n`}## Examples

${entry.examples.map(([line, does]) => `${does[0]!.toUpperCase()}${does.slice(1)}:\n\n${wrapCommand(line, WIDTH, '    ')}\n\n`).join('')}${entry.options.length > 0 ? `## Options\n\n${list(entry.options)}\n` : ''}## Options of every command

${list(COMMON_OPTIONS)}`
}

/** The list of manual pages, for a terminal. */
export function renderManualIndex(columns: number): string {
  const lines = renderLines(
    TABLE.map(([, summary], at) => [COMMAND_NAMES[at]!, summary]),
    columns,
  )
  const more =
    '`rowbook manual COMMAND` prints the reference of one, `rowbook manual --man` the man page of all.'
  return `${lines}\n\n${wrap(more, columns)}\n`
}
