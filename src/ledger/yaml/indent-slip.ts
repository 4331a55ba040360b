import { type Line, lineAt, type Slip } from './line-slip.ts'

/** The column of a line's key: after its spaces and a list's dash. */
const keyColumn = (line: string): number | null => {
  const found = /^( *(?:- )?)[a-z_]+:/.exec(line)
  return found ? found[1]!.length : null
}

/** A line indented more or less than its neighbours, at or near a fault. */
export function indentSlip(text: string, offset: number): Slip | null {
  const at = lineAt(text, Math.min(offset, Math.max(0, text.length - 1)))
  const first = firstLine(text)
  const slip = dashSlip(text, at)
  if (slip) return slip
  const column = keyColumn(at.line)
  if (column === 0 && first.start < at.start && /^- [a-z_]+:/.test(first.line)) return loneDash(first)
  const firstColumn = keyColumn(first.line)
  if (firstColumn && !/^ *- /.test(first.line) && first.start < at.start && column === 0)
    return outOfLine(first, firstColumn, 0)
  const next = lineAt(text, at.start + at.line.length + 1)
  const nextColumn = next.start > at.start ? keyColumn(next.line) : null
  if (column !== null && nextColumn !== null && nextColumn > column && !/^ *- /.test(next.line))
    return outOfLine(next, nextColumn, column)
  const before = lineAt(text, Math.max(0, at.start - 1))
  const aim = before.start < at.start ? keyColumn(before.line) : null
  if (column === null || column === aim || before.start === at.start) return null
  return aim !== null || column > before.line.search(/\S/) ? outOfLine(at, column, aim) : null
}

/** Lines above a fault that are looked at for the lists that it may belong to. */
const MOST_ABOVE = 100

interface Dash {
  column: number
  key: string | undefined
}

/** The dash of an entry, and its first key, also in braces. */
const dashOf = (line: string): Dash | null => {
  const found = /^( *)- (?:\{ ?)?(?:([a-z_]+):)?/.exec(line)
  return found && { column: found[1]!.length, key: found[2] }
}

/** A dash out of line with every list open above it; meant is the one that begins alike, else the nearest. */
function dashSlip(text: string, at: Line): Slip | null {
  const dash = dashOf(at.line)
  const open = dash ? listsAbove(text, at) : []
  if (!dash || open.length === 0 || open.some(({ column }) => column === dash.column)) return null
  const away = ({ column }: Dash) => Math.abs(column - dash.column)
  const nearest = open.reduce((one, other) => (away(other) < away(one) ? other : one))
  const meant = open.find(({ key }) => key !== undefined && key === dash.key) ?? nearest
  return outOfLine(at, dash.column, meant.column)
}

/** The lists that are open above a line, innermost first. */
function listsAbove(text: string, { start }: Line): Dash[] {
  const open: Dash[] = []
  let least = Number.POSITIVE_INFINITY
  let below = start
  for (let count = 0; count < MOST_ABOVE && below > 0 && least > 0; count += 1) {
    const above = lineAt(text, below - 1)
    below = above.start
    const indent = above.line.search(/[^ ]/)
    if (indent < 0 || indent >= least || above.line[indent] === '#') continue
    least = indent
    const dash = dashOf(above.line)
    if (dash) open.push(dash)
  }
  return open
}

function firstLine(text: string): Line {
  const found = /^(?!\s*(?:#|$)).+$/m.exec(text)
  return lineAt(text, found?.index ?? 0)
}

/** A dash before the first key makes a list of one entry, and the keys below are no part of it. */
const loneDash = ({ start }: Line): Slip => ({
  start,
  end: start + 1,
  name: 'syntax',
  message: 'a dash begins the first line, and the lines below are not indented with it',
  help: 'take the dash away; in a list of entries, indent the lines below by 2 spaces',
})

const spaces = (count: number): string => (count === 1 ? '1 space' : `${count === 0 ? 'no' : count} spaces`)

function outOfLine({ start, line }: Line, column: number, aim: number | null): Slip {
  const neighbours =
    aim === null ? 'its entry is not' : aim === 0 ? 'its neighbours are not' : `its neighbours by ${aim}`
  return {
    start: start + Math.min(column, line.length),
    end: start + Math.max(column + 1, line.indexOf(':')),
    name: 'syntax',
    message: `this line is indented by ${spaces(column)}, ${neighbours}`,
    help: aim ? `indent it by ${spaces(aim)}` : 'take the spaces at its start away',
  }
}
