import { safe } from './safe.ts'
import { wrap } from './text.ts'

/** The file of an entry and its text, as a screen shows them: without the line for editors, long lines wrapped. */
export function renderEntry(
  { said, file, text }: { said: string; file: string; text: string },
  columns: number,
): string {
  const body = text
    .trimEnd()
    .split('\n')
    .filter((line) => !line.startsWith('# yaml-language-server'))
    .map((line) => renderYamlLine(line, '  ', columns))
  return `${wrap(`${said}: ${safe(file)}`, columns)}\n\n${body.join('')}`
}

/** A line of a file after its lead; a long one continues with more indentation. */
export function renderYamlLine(line: string, lead: string, columns: number): string {
  const whole = lead + safe(line)
  if (whole.length <= columns) return `${whole}\n`
  const indent = ' '.repeat(lead.length + line.search(/\S|$/))
  const [first, ...more] = wrap(safe(line.trimStart()), columns - indent.length - 4).split('\n')
  return [
    `${lead}${indent.slice(lead.length)}${first}`,
    ...more.map((one) => `${indent}    ${one}`),
    '',
  ].join('\n')
}
