import { median, slipped } from '../../agronomy/statistics/median.ts'
import { areaOf } from '../../facts/block-size.ts'
import type { Book } from '../../facts/book.ts'
import { judged } from '../../facts/judged.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { say } from '../../facts/say.ts'
import type { Finding } from '../../ledger/read/finding.ts'
import type { PickEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { findingAt, mention, type Rule } from '../rule.ts'
import { beside, countUpTo, type Seen, sampleBefore, seasonKey } from './beside-picks.ts'
import { outOfSeason } from './northern-month.ts'
import { keyOf } from './sample-course.ts'
import { odd, unusual } from './usual.ts'

const NAME = 'unlikely-pick'

/** A pick that no vineyard bears or no hands pick. */
export const unlikelyPick: Rule = {
  name: NAME,
  about: {
    what: 'The weight of a pick is a crop that no vineyard bears, or ten times or a tenth of other years; the people could not have picked it in the hours; it does not go with the crates or the juice; the sugar is not that of the last sample; the block had not begun to ripen; or it is not of a time of year when grapes are ripe.',
    limits:
      'up to 40 t/ha; 4-300 kg for each person and hour, and within five times `harvest: picking`; crates by `harvest: crate` within twice; juice up to 900 L/t; sugar within 4 Brix of a sample of the last ten days and 7 of the target; half of `after_veraison` gone; July to December, counted as in the north',
    source: 'common practice, no source',
    basis: 'common practice',
  },
  check: (book) => {
    const crops = cropsOf(book)
    const seen = beside(book)
    return judged(book, 'picks').flatMap((pick) => [
      ...weights(book, pick, crops.get(pick.block)!),
      ...hands(book, pick),
      ...ripeness(book, pick, seen),
      ...month(book, pick),
      ...rest(pick, seen),
    ])
  },
}

/** What was picked of each block in each season, kg. */
function cropsOf({ ledger, asOf }: Book): Map<string, Map<number, number>> {
  const crops = new Map<string, Map<number, number>>()
  for (const { block, season, date, weight } of ledger.picks) {
    if (date > asOf) continue
    const seasons = crops.get(block) ?? new Map<number, number>()
    crops.set(block, seasons.set(season, (seasons.get(season) ?? 0) + weight))
  }
  return crops
}

function weights({ ledger }: Book, pick: PickEntry, crops: ReadonlyMap<number, number>): Finding[] {
  const block = ledger.blocks.get(pick.block)
  const { sorted_out = 0 } = pick
  const whole = crops.get(pick.season)!
  const usual = median([...crops].flatMap(([season, kg]) => (season === pick.season ? [] : [kg]))) ?? 0
  const tonnes = block ? whole / 1000 / areaOf(block) : 0
  if (tonnes > 40)
    return [
      odd(
        NAME,
        pick,
        ['weight'],
        `${say(whole, 'kg')} of ${pick.block} in ${pick.season} would be ${say(tonnes, 't/ha')}, more than vines bear`,
      ),
    ]
  if (slipped(whole, usual) && whole === pick.weight)
    return [
      odd(
        NAME,
        pick,
        ['weight'],
        `${say(pick.weight, 'kg')}, where ${say(usual, 'kg')} was picked in other years`,
      ),
    ]
  return sorted_out > pick.weight
    ? [odd(NAME, pick, ['sorted_out'], `more was thrown away, ${say(sorted_out, 'kg')}, than was picked`)]
    : []
}

function hands({ ledger }: Book, pick: PickEntry): Finding[] {
  const { people, hours, weight, crates, juice } = pick
  const rate = people !== undefined && hours !== undefined ? weight / (people * hours) : undefined
  const { crate, picking: usual } = ledger.vineyard.harvest ?? {}
  const perCrate = crates && crate ? weight / crates / crate : 1
  const litres = juice === undefined ? undefined : (juice * 1000) / weight
  return [
    ...unusual(NAME, pick, [
      {
        path: ['weight'],
        value: rate,
        low: 4,
        high: 300,
        unit: 'kg for each person and hour',
        what: 'picking rate',
      },
      { path: ['hours'], value: hours, low: 0.1, high: 16, unit: 'h', what: 'picking day' },
      { path: ['ph'], value: pick.ph, low: 2.6, high: 4.2, what: 'pH of must' },
      { path: ['ta'], value: pick.ta, low: 2, high: 25, unit: 'g/L', what: 'acidity of must' },
      { path: ['juice'], value: litres, low: 250, high: 900, unit: 'L/t', what: 'yield of juice' },
    ]),
    ...(rate !== undefined && rate >= 4 && rate <= 300 && usual && (rate > usual * 5 || rate * 5 < usual)
      ? [
          odd(
            NAME,
            pick,
            ['weight'],
            `${say(rate, 'kg')} for each person and hour, where ${say(usual, 'kg')} is reckoned with (${mention(ledger.vineyard, ['harvest', 'picking'])})`,
          ),
        ]
      : []),
    ...(perCrate > 2 || perCrate < 0.5
      ? [
          odd(
            NAME,
            pick,
            ['crates'],
            `${crates} crates of ${say(crate!, 'kg')} are not ${say(weight, 'kg')} (${mention(ledger.vineyard, ['harvest', 'crate'])})`,
          ),
        ]
      : []),
  ]
}

function month({ ledger }: Book, pick: PickEntry): Finding[] {
  if (!outOfSeason(ledger.vineyard, pick.date, { first: 7, last: 12 })) return []
  return [
    findingAt(pick, ['date'], {
      name: NAME,
      level: 'warning',
      message: `grapes picked on ${pick.date}, at a time of year when none are ripe`,
      help: 'check the date; day and month may have changed places',
    }),
  ]
}

function ripeness(book: Book, pick: PickEntry, seen: Seen): Finding[] {
  const findings: Finding[] = unusual(NAME, pick, [
    { path: ['brix'], value: pick.brix, low: 10, high: 32, what: 'sugar at picking' },
  ])
  const target = targetOf(book, pick)
  if (pick.brix !== undefined && target && findings.length === 0) {
    const off = pick.brix < target.low - FAR_OFF || pick.brix > target.high + FAR_OFF
    if (off)
      findings.push(
        odd(
          NAME,
          pick,
          ['brix'],
          `${say(pick.brix)} Brix, where ${say(target.low)}-${say(target.high)} is ripe`,
        ),
      )
  }
  const sample = sampleBefore(seen, pick)
  if (sample && pick.brix !== undefined && findings.length === 0) {
    const read = readSample(sample).reading!
    if (Math.abs(pick.brix - read) > 4)
      findings.push(
        odd(
          NAME,
          pick,
          ['brix'],
          `${say(pick.brix)} Brix at the press, but ${say(read)} in the sample of ${sample.date} (${mention(sample, [keyOf(sample, 'brix')])})`,
        ),
      )
  }
  const turned = seen.turned.get(seasonKey(pick))
  const last = seen.green.get(seasonKey(pick))
  const green = last && last.date >= pick.date ? last : undefined
  const soonest = Math.max(10, (varietyOf(book, pick)?.after_veraison?.low ?? 0) / 2)
  const early = turned && turned.stage < 89 && daysBetween(turned.date, pick.date) < soonest ? turned : green
  if (early)
    findings.push(
      odd(
        NAME,
        pick,
        ['date'],
        `picked on ${pick.date}, when ${pick.block} had hardly begun to ripen: stage ${early.stage} on ${early.date} (${mention(early, ['stage'])})`,
      ),
    )
  return findings
}

/** Brix by which a must may miss its target and still be meant: sparkling wine, a wet year, raisins. */
const FAR_OFF = 7

const varietyOf = ({ ledger }: Book, { block }: PickEntry) =>
  ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')

const targetOf = (book: Book, pick: PickEntry) =>
  book.ledger.blocks.get(pick.block)?.targets?.brix ?? varietyOf(book, pick)?.targets?.brix

/** Nothing was said to hang still, and yet more was picked on a later day. */
function rest(pick: PickEntry, { picks }: Seen): Finding[] {
  if (pick.rest !== 0) return []
  const list = picks.get(seasonKey(pick)) ?? []
  const later = list[countUpTo(list, pick.date)]
  return later
    ? [
        odd(
          NAME,
          pick,
          ['rest'],
          `nothing was left on ${pick.block}, but more was picked on ${later.date} (${mention(later, ['date'])})`,
        ),
      ]
    : []
}
