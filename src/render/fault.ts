import { safe } from './safe.ts'

/** A file without its path, a line and a column at the end of a line of a stack. */
const PLACE = /(?<![^\\/\s(])[^\\/\s(:.]+(?:\.\w+)+:\d+:\d+(?=\)?$)/m

/** A short report of a fault of the program itself, with private paths taken out. */
export function faultReport(
  error: unknown,
  about: {
    version: string
    variables: Readonly<Record<string, string | undefined>>
    cwd: string
    command: string
  },
): string {
  const hide = (text: string) => {
    const { HOME, USERPROFILE } = about.variables
    let shown = text
    for (const path of [about.cwd, HOME, USERPROFILE])
      if (path && path.length > 1) shown = shown.split(path).join('~')
    return shown
  }
  const message = error instanceof Error ? `${error.name}: ${error.message}` : String(error)
  // The build shortens names, so only the place leads to the code. Its path is left out, but for the file name.
  const place = error instanceof Error ? PLACE.exec(error.stack ?? '') : null
  return `rowbook: something went wrong inside the program; your files are as they were.
  ${safe(hide(message))}${place ? ` (at ${place[0]})` : ''}
  rowbook ${about.version}, Node ${process.versions.node}, command ${safe(about.command)}
  Please report this with the lines above.
`
}
