import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { spokenDate, spokenTime } from '../../records/spoken-date.ts'
import { instantOf } from '../../records/zone.ts'
import { entriesOf } from '../block-entries.ts'
import { productNames } from '../names.ts'
import { daysText } from '../sentences.ts'
import { type LegalFrom, waitText } from '../spraying/legal-from.ts'
import { type OverLabel, overLabelSentence } from '../spraying/over-label.ts'
import { keepOutOf, untilText, whyKeptOut } from '../spraying/re-entry.ts'
import { type Asked, answersOf, type Gate, type GateName } from './gate.ts'

/** Words in a work entry that record a block as unsprayed this season. */
const UNSPRAYED = /^(?:not sprayed|no spray(?:s|ing)?|unsprayed)\b/i

const NO_SPRAY =
  'no spray of this block is recorded this season; if there was none, record work with the job `not sprayed`'

/** Whether the pre-harvest intervals of everything sprayed are over. */
export function beforeHarvestGate(asked: Asked, legal: LegalFrom): Gate {
  const { pass, fail, unknown } = answersOf('before-harvest')
  if (legal.sprays === 0) return withoutSprays('before-harvest', asked)
  if (legal.overLabel.length > 0) return overLabelGate('before-harvest', legal.overLabel)
  if (legal.date !== null && legal.date > asked.asOf) {
    const { by, calendar } = legal
    const day = spokenDate(legal.date)
    const orSooner =
      calendar === legal.date ? '' : `, or ${spokenDate(calendar!)} if the day of spraying counts as day 0`
    const detail = by!.cleared
      ? `${waitText(by!)}: pick from ${day}`
      : `${by!.name}, sprayed ${spokenDate(by!.sprayed)}, has a pre-harvest interval (PHI) of ${daysText(by!.days!)}: pick from ${day}${orSooner}`
    return fail(detail, day.slice(4), `Do not pick before ${day}.`)
  }
  if (legal.unknown.length > 0)
    return unknown(
      `no pre-harvest interval (PHI) in the record of ${productNames(asked.ledger, legal.unknown)}`,
      'unknown',
      `Write \`before_harvest\` from the label into products/${legal.unknown[0]}.yaml.`,
    )
  return pass(`over since ${spokenDate(legal.date!)} (${waitText(legal.by!)})`, 'passed')
}

const overLabelGate = (gate: GateName, over: readonly OverLabel[]): Gate =>
  answersOf(gate).fail(
    overLabelSentence(over),
    'over label',
    'Ask your adviser or the authority when the block may be picked and entered. Then write it into the spray: `cleared: { on: DATE, by: NAME, pick_from: DATE }`.',
  )

function withoutSprays(gate: GateName, asked: Asked): Gate {
  const { pass, unknown } = answersOf(gate)
  const work = entriesOf(asked.ledger.work, { ...asked, block: asked.block.id })
  return work.some(({ job }) => UNSPRAYED.test(job))
    ? pass('not sprayed this season (work entry)', '-')
    : unknown(NO_SPRAY, 'no spray', 'Record what was sprayed, or that nothing was.')
}

/** Whether pickers may enter on the day: judged at 00:00, since the hour of picking is unknown. */
export function reEntryGate(asked: Asked, sprays: readonly SprayEntry[]): Gate {
  const { ledger, asOf } = asked
  const gate = (rest: Omit<Gate, 'gate'>): Gate => ({ gate: 're-entry', ...rest })
  if (sprays.length === 0) return { ...withoutSprays('re-entry', asked), until: null }
  const outs = sprays.map((spray) => keepOutOf(ledger, spray))
  const overLabel = outs.flatMap((out) => out.overLabel)
  if (overLabel.length > 0) return { ...overLabelGate('re-entry', overLabel), until: null }
  const last = outs
    .flatMap(({ over }) => over ?? [])
    .toSorted((a, b) => a.instant - b.instant)
    .at(-1)
  const until = last?.iso ?? null
  if (last && last.instant > instantOf(asOf, 0, ledger.vineyard.timezone)) {
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
