import { listed } from '../../facts/sentences.ts'
import type { Starter } from '../../ledger/write/starter-files.ts'
import { safeLine } from '../../render/safe.ts'
import { renderLines, wrap } from '../../render/text.ts'

/** What was written, and what to do next. */
export function renderStart({
  folder,
  files,
  starter,
  columns,
}: {
  folder: string
  files: readonly string[]
  starter: Starter
  columns: number
}): string {
  const place = safeLine(folder)
  const records = files.filter((file) => /^(?:blocks|varieties|products|sprayers)\//.test(file))
  const hasExamples = files.some((file) => file.startsWith('examples/'))
  const steps: [string, string][] = [[`cd ${place}`, 'go to its folder']]
  if (starter.latitude === null)
    steps.push(['rowbook check', 'once you wrote the latitude into vineyard.yaml'])
  if (!records.some((file) => file.startsWith('blocks/')))
    steps.push(['rowbook note block', 'your first block'])
  if (!records.some((file) => file.startsWith('sprayers/')))
    steps.push(['rowbook note sprayer', 'your sprayer'])
  steps.push(['rowbook note product', 'each spray product, copied from its label'])
  steps.push(['rowbook today', 'what to do next'])
  const said = [
    `Your vineyard's records are in ${place}: ${listed(['vineyard.yaml', ...records])}.`,
    `Time zone: ${safeLine(starter.timezone)}. Where that is wrong, change it in vineyard.yaml.`,
  ]
  if (starter.latitude === null)
    said.push(
      'The latitude is missing, and no report runs without it: seasons and heat sums follow from it. Write it into vineyard.yaml, like `latitude: 52.1`; negative in the south.',
    )
  if (hasExamples) said.push('The examples in examples/ are invented. They are not counted: copy from them.')
  return `${said.map((one) => wrap(one, columns)).join('\n')}

Next:
${renderLines(steps, columns)}

${wrap('The label and your local rules override anything that is written here.', columns)}
`
}
