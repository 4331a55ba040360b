import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { instantOf } from '../../records/zone.ts'
import { productNames } from '../names.ts'
import { daysText } from '../sentences.ts'
import { type LegalFrom, legalFrom, spraysOf, waitText } from '../spraying/legal-from.ts'
import { type OverLabel, overLabelSentence } from '../spraying/over-label.ts'
import { keepOutOf, untilText, whyKeptOut } from '../spraying/re-entry.ts'
import type { Asked, Gate } from './gate.ts'

/** Words in a work entry that record a block as unsprayed this season. */
const UNSPRAYED = /^(?:not sprayed|no spray(?:s|ing)?|unsprayed)\b/i

const NO_SPRAY =
  'no spray of this block is recorded this season; if there was none, record work with the job `not sprayed`'

/** Whether the pre-harvest intervals of everything sprayed are over. */
export function beforeHarvestGate(asked: Asked): { gate: Gate; legal: LegalFrom } {
  const legal = legalFrom(asked.ledger, spraysOf(asked.ledger, { ...asked, block: asked.block.id }))
  const gate = (rest: Omit<Gate, 'gate'>): { gate: Gate; legal: LegalFrom } => ({
    gate: { gate: 'before-harvest', ...rest },
    legal,
  })
  if (legal.sprays === 0) return gate(withoutSprays(asked))
  if (legal.overLabel.length > 0) return gate(overLabelGate(legal.overLabel))
  if (legal.date !== null && legal.date > asked.asOf) {
    const { by, calendar } = legal
    const orSooner =
      calendar === legal.date ? '' : `, or ${spokenDate(calendar!)} if the day of spraying counts as day 0`
    const detail = by!.cleared
      ? `${waitText(by!)}: pick from ${spokenDate(legal.date)}`
      : `${by!.name}, sprayed ${spokenDate(by!.sprayed)}, has a pre-harvest interval (PHI) of ${daysText(by!.days!)}: pick from ${spokenDate(legal.date)}${orSooner}`
    const todo = `Do not pick before ${spokenDate(legal.date)}.`
    return gate({ state: 'fail', detail, short: spokenDate(legal.date).slice(4), todo })
  }
  if (legal.unknown.length > 0) {
    const detail = `no pre-harvest interval (PHI) in the record of ${productNames(asked.ledger, legal.unknown)}`
    return gate({
      state: 'unknown',
      detail,
      short: 'unknown',
      todo: `Write \`before_harvest\` from the label into products/${legal.unknown[0]}.yaml.`,
    })
  }
  const detail = `over since ${spokenDate(legal.date!)} (${waitText(legal.by!)})`
  return gate({ state: 'pass', detail, short: 'passed', todo: null })
}

function overLabelGate(over: readonly OverLabel[]): Omit<Gate, 'gate'> {
  const todo =
    'Ask your adviser or the authority when the block may be picked and entered. Then write it into the spray: `cleared: { on: DATE, by: NAME, pick_from: DATE }`.'
  return { state: 'fail', detail: overLabelSentence(over), short: 'over label', todo }
}

function withoutSprays({ ledger, block, season, asOf }: Asked): Omit<Gate, 'gate'> {
  const said = ledger.work.some(
    (entry) =>
      entry.block === block.id && entry.season === season && entry.date <= asOf && UNSPRAYED.test(entry.job),
  )
  if (said) return { state: 'pass', detail: 'not sprayed this season (work entry)', short: '-', todo: null }
  return {
    state: 'unknown',
    detail: NO_SPRAY,
    short: 'no spray',
    todo: 'Record what was sprayed, or that nothing was.',
  }
}

/** The re-entry gate also carries the end of the last re-entry interval, as ISO time with offset. */
interface ReEntryGate extends Gate {
  until: string | null
}

/** Whether pickers may enter on the day: judged at 00:00, since the hour of picking is unknown. */
export function reEntryGate(asked: Asked): ReEntryGate {
  const { ledger, block, asOf } = asked
  const zone = ledger.vineyard.timezone
  const sprays = spraysOf(ledger, { ...asked, block: block.id })
  const gate = (rest: Omit<ReEntryGate, 'gate'>): ReEntryGate => ({ gate: 're-entry', ...rest })
  if (sprays.length === 0) return gate({ ...withoutSprays(asked), until: null })
  const outs = sprays.map((spray) => keepOutOf(ledger, spray))
  const overLabel = outs.flatMap((out) => out.overLabel)
  if (overLabel.length > 0) return gate({ ...overLabelGate(overLabel), until: null })
  const last = outs
    .flatMap(({ over }) => over ?? [])
    .toSorted((a, b) => a.instant - b.instant)
    .at(-1)
  const until = last?.iso ?? null
  const morning = instantOf(asOf, 0, zone)
  if (last && last.instant > morning) {
    const at = untilText(last)
    const detail = `keep out until ${at} (${whyKeptOut(last)}${last.cleared ? '' : ' from the end of spraying'}), checked for the start of ${spokenDate(asOf)}`
    return gate({
      state: 'fail',
      detail,
      short: spokenTime(last.date, last.minutes).replace(/^(the end of )?\w{3} /, '$1'),
      until,
      todo: `Keep the pickers out until ${at}.`,
    })
  }
  const unknown = [...new Set(outs.flatMap((out) => out.unknown))]
  if (unknown.length > 0) {
    const detail = `no re-entry interval (REI) in the record of ${productNames(ledger, unknown)}`
    return gate({
      state: 'unknown',
      detail,
      short: 'unknown',
      until,
      todo: `Write \`re_entry\` from the label into products/${unknown[0]}.yaml.`,
    })
  }
  return gate({
    state: 'pass',
    detail: `over since ${spokenTime(last!.date, last!.minutes)}`,
    short: '-',
    until,
    todo: null,
  })
}
