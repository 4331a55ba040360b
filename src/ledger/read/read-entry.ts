import { distance } from 'fastest-levenshtein'
import type { z } from 'zod'
import { schemaUnder, shapeOf } from '../../records/fields/shape.ts'
import { asSiteMeans, type SiteWay } from '../../records/typed/site-way.ts'
import { toPlain } from '../yaml/plain.ts'
import { errorAt, type Finding } from './finding.ts'
import { type Node, nodeAt, type Path, type Placed, placed, placeOf, type Source } from './source.ts'

type EntryResult<T> = { record: Placed<T>; findings: Finding[] } | { record: null; findings: Finding[] }

/**
 * Checks an entry against its schema; on success the record with its place, else every fault with its place.
 * @param way how the site's country reads dates and units; omitted where nothing in the text depends on it
 */
export function readEntry<S extends z.ZodType<object>>(
  schema: S,
  source: Source,
  way?: SiteWay | null,
): EntryResult<z.output<S>> {
  if (source.node.kind !== 'map') {
    const fault = {
      name: 'wrong-type',
      message: 'expected an entry of keys and values',
      help: 'write `key: value`, one a line',
    }
    return { record: null, findings: [errorAt(placeOf(source), fault)] }
  }
  const plain = toPlain(source.node)
  const result = schema.safeParse(way ? asSiteMeans(schema, plain, way) : plain)
  if (result.success) return { record: placed(result.data, source), findings: [] }
  const findings = result.error.issues.flatMap((issue) => toFindings(issue, schema, source))
  return { record: null, findings: oncePerSlip(findings) }
}

/** A mistyped key is one mistake: the key that is then missing isn't reported as well. */
function oncePerSlip(findings: Finding[]): Finding[] {
  const meant = findings.flatMap(({ name, help }) =>
    name === 'unknown-key' ? (MEANT.exec(help)?.[1] ?? []) : [],
  )
  return findings.filter(
    ({ name, message, help }) =>
      name !== 'missing-key' ||
      !meant.some((key) => message === `\`${key}\` is missing` || help.split(/[ ,]+/).includes(key)),
  )
}

const MEANT = /^did you mean `(?:\{ )?([^`:]+)/

function toFindings(issue: z.core.$ZodIssue, schema: z.ZodType, source: Source): Finding[] {
  const path = issue.path as Path
  if (issue.code === 'unrecognized_keys') {
    const known = knownKeys(schema, path)
    return issue.keys.map((key) =>
      errorAt(placeOf(source, [...path, key], 'key'), {
        name: 'unknown-key',
        message: `\`${key}\` is not a key that rowbook knows here`,
        help:
          nearestKey(key, known) ??
          tankPartOf(known, key, nodeAt(source.node, [...path, key])) ??
          `known keys: ${known.join(', ')}`,
      }),
    )
  }
  const node = nodeAt(source.node, path)
  if (node === null) {
    const key = String(path.at(-1))
    const fault = {
      name: 'missing-key',
      message: `\`${key}\` is missing`,
      help: `add \`${key}:\`${hintFor(schema, path)}`,
    }
    return [errorAt(placeOf(source, path.slice(0, -1)), fault)]
  }
  const params =
    issue.code === 'custom' ? (issue.params as { name?: string; help?: string } | undefined) : undefined
  const place = placeOf(source, path)
  const isComment =
    params?.name === 'missing-value' && /: +#/.test(source.at.text.split('\n')[place.line - 1] ?? '')
  const fault = {
    name: params?.name ?? 'wrong-type',
    message: params ? issue.message : plainMessage(issue),
    help: isComment
      ? 'what follows a `#` is a comment: put the text in quotes'
      : (params?.help ?? helpFor(issue, { schema, path, node })),
  }
  return [errorAt(place, fault)]
}

/** The help text where a field's own check has none. */
function helpFor(
  issue: z.core.$ZodIssue,
  { schema, path, node }: { schema: z.ZodType; path: Path; node: Node },
): string {
  if (issue.code === 'invalid_type' && issue.expected === 'array')
    return 'begin each with a dash and a space, one on a line'
  const at = schemaAt(schema, path)
  const orWord = at && shapeOf(at).about.orWord
  if (orWord) return `write \`${orWord}\`, or what was found, like \`{ powdery: { bunches: 3 } }\``
  const keys = issue.code === 'invalid_type' && issue.expected === 'object' ? knownKeys(schema, path) : []
  const part = tankPartOf(keys, '', node)
  if (part) return part
  if (keys.length > 0) return `write it like \`{ ${keys[0]}: ... }\`; keys: ${keys.join(', ')}`
  return 'see `rowbook schema` for what may stand here'
}

function plainMessage(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') {
    const wanted: Record<string, string> = {
      array: 'a list',
      object: 'keys and values in braces or below',
      record: 'keys and values in braces or below',
      string: 'text',
    }
    return `expected ${wanted[issue.expected] ?? issue.expected}`
  }
  if (issue.code === 'invalid_key') return issue.issues[0]?.message ?? 'the key is not of the right form'
  return issue.message
}

/** A product with its dose as one key and value, or in one text, `sulphur: 3 kg/ha`, as a part of a tank, or null. */
function tankPartOf(known: readonly string[], key: string, value: Node | null): string | null {
  if (!known.includes('product') || value?.kind !== 'scalar') return null
  const said = `${key} ${value.text}`.trim()
  const product = said.split(/[ =]/, 1)[0]!
  if (!/^[a-z][\w-]*$/.test(product)) return null
  const dose = said.slice(product.length).replaceAll('=', ' ').trim()
  const kind = /\/ ?(?:L|100 ?L|hL)$|%$/.test(dose)
    ? 'concentration'
    : /^[\d.]+ ?[a-zA-Z]+$/.test(dose)
      ? 'amount'
      : 'rate'
  return `did you mean \`{ product: ${product}, ${kind}: ${dose || '...'} }\`?`
}

/** Growers' words for fields, by key. */
const CALLED: Readonly<Record<string, readonly string[]>> = {
  acid: ['ta'],
  acidity: ['ta'],
  active: ['actives'],
  disease: ['for', 'against'],
  dose: ['rate'],
  hectares: ['area'],
  label_dose: ['rate'],
  people_hours: ['hours'],
  phi: ['before_harvest'],
  rei: ['re_entry'],
  size: ['area'],
  sugar: ['brix'],
  target: ['for', 'against'],
  volume: ['water', 'tank'],
}

/** The known key that was probably meant, as a question, or null where none is close. */
function nearestKey(key: string, known: readonly string[]): string | null {
  const called = CALLED[key.toLowerCase().replaceAll(/[ -]/g, '_')]?.find((one) => known.includes(one))
  if (called !== undefined) return `did you mean \`${called}\`?`
  const [first = '', ...rest] = key.split(' ')
  if (rest.length > 0 && known.includes(first)) return `did you mean \`${first}: ${rest.join(' ')}\`?`
  const begun = key.length < 3 ? [] : known.filter((one) => one.startsWith(key.toLowerCase()))
  return begun.length === 1 ? `did you mean \`${begun[0]}\`?` : nearest(key, known)
}

/** The closest known word, as a question, or null where none is close. */
export function nearest(word: string, known: readonly string[]): string | null {
  const ranked = known
    .map((candidate) => ({ candidate, off: distance(candidate, word.toLowerCase()) }))
    .sort((a, b) => a.off - b.off || (a.candidate < b.candidate ? -1 : 1))
  const best = ranked[0]
  if (!best || best.off > Math.max(2, Math.floor(word.length / 3))) return null
  return `did you mean \`${best.candidate}\`?`
}

function schemaAt(schema: z.ZodType, path: Path): z.ZodType | null {
  let at: z.ZodType | null = schema
  for (const step of path) at = at && schemaUnder(at, step)
  return at
}

function knownKeys(schema: z.ZodType, path: Path): string[] {
  const at = schemaAt(schema, path)
  const shape = at && shapeOf(at)
  return shape?.kind === 'map' ? Object.keys(shape.keys) : []
}

function hintFor(schema: z.ZodType, path: Path): string {
  const at = schemaAt(schema, path)
  const { description, examples = [] } = at ? shapeOf(at).about : {}
  if (!description) return ''
  const example = examples.length === 0 ? '' : `, like \`${String(examples[0])}\``
  return ` (${description.replace(/ \(kept in .*\)$/, '')}${example})`
}
