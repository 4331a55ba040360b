import { nearest } from '../../ledger/read/read-entry.ts'
import { ALSO } from './also.ts'
import { type Explained, everything } from './everything.ts'
import { figuresAt } from './path.ts'

type ExplainResult = { found: Explained[]; near?: undefined } | { found?: undefined; near: string | null }

/**
 * What is known of a name: of a figure, a finding, a topic, a word of the trade (`PHI`), or a key of the JSON contract
 * (`lastTank`, `mix.lastTank`, `last-tank`). A key that several figures have gives them all.
 */
export function explain(name: string): ExplainResult {
  const all = everything()
  const wanted = name.trim()
  const exact = all.filter((one) => one.name === wanted.toLowerCase())
  if (exact.length > 0) return { found: exact }
  const plain = flat(wanted)
  const also = Object.hasOwn(ALSO, plain) ? ALSO[plain] : undefined
  if (also) return { found: all.filter(({ name }) => also.includes(name)) }
  const ofTopic = all.filter(({ topic }) => flat(topic) === plain || topic.split(' ').includes(plain))
  if (ofTopic.length > 0) return { found: ofTopic }
  const ofCommand = all.filter(({ keys }) => keys.some((key) => key.startsWith(`${plain}.`)))
  if (ofCommand.length > 0) return { found: ofCommand }
  const byKey = all.filter(({ keys }) => keys.some((key) => flat(key) === plain || endsWith(key, plain)))
  if (byKey.length > 0) return { found: byKey }
  const around = new Set(figuresAt(wanted).map((one) => one.name))
  if (around.size > 0) return { found: all.filter((one) => around.has(one.name)) }
  const leaves = all.flatMap(({ keys }) => keys.map((key) => key.split('.').at(-1)!))
  return {
    near: nearest(wanted, [...all.flatMap((one) => [one.name, one.topic]), ...Object.keys(ALSO), ...leaves]),
  }
}

/** Whether the last words of a key are those asked for: `mix.products.perFullTank` by `perFullTank`. */
function endsWith(key: string, plain: string): boolean {
  const steps = key.split('.')
  return steps.some((_, index) => flat(steps.slice(index).join('.')) === plain)
}

const flat = (text: string) => text.replace(/[^a-z0-9.]/gi, '').toLowerCase()
