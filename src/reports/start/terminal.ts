import { safeLine } from '../../render/safe.ts'
import { counted, renderLines, wrap } from '../../render/text.ts'

/** What was laid out, and what to do next. */
export function renderStart({
  folder,
  files,
  latitudeGiven,
  columns,
}: {
  folder: string
  files: string[]
  latitudeGiven: boolean
  columns: number
}): string {
  const place = safeLine(folder)
  const entries = files.filter((file) => file.endsWith('.yaml'))
  const steps: [string, string][] = [
    [`${place}/products/`, 'copy each product from its label; the figures there are placeholders'],
    [`cd ${place} && rowbook check`, 'sound as it stands; check again whenever you have typed'],
    ['git init', 'if you want its history, and `rowbook check` before each commit'],
  ]
  if (!latitudeGiven)
    steps.unshift([`${place}/vineyard.yaml`, 'put your latitude: it decides the hemisphere'])
  return `A new book is in ${place}: ${counted(entries.length, 'file')}, one example of each record.

Next:
${renderLines(steps, columns)}

${wrap('The label and your local rules decide over anything that is written here.', columns)}
`
}
