import { median, slipped } from '../../agronomy/statistics/median.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { inSeason, type JudgedLedger, judged } from '../../facts/judged.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { figureText } from '../../facts/sentences.ts'
import type { CropEntry, PickEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, findingAt, mention, PRACTICE, type Rule } from '../rule.ts'
import { beside, countUpTo, type Seen, sampleBefore, seasonKey } from './beside-picks.ts'
import { keyOf } from './sample-course.ts'
import { isUsual, outOfSeason, type Slips, slipsOf } from './usual.ts'

/** A pick too large for the vines or the pickers. */
export const unlikelyPick: Rule = {
  name: 'unlikely-pick',
  what: 'The weight of a pick is more than any vineyard bears. Or it is ten times other years, or a tenth. Or the people could not pick it in those hours. Or it does not fit the crates, the juice, the bunches counted or the sugar of the last sample. Or the block had not begun to ripen, or grapes are not ripe at that time of year.',
  limits:
    'Usual are: up to 40 t/ha; 4 to 300 kg per person and hour, within five times `harvest: picking`; crates within twice `harvest: crate`; juice up to 900 L/t. Sugar is within 4 Brix of a sample of the last ten days, and 2.5 of the last three. A whole crop is within 1.75 times what was counted at harvest, and 7 times the target. Half of `after_veraison` is over. Picks are from July to December in the north, half a year later in the south.',
  ...PRACTICE,
  check: (input) => {
    const crops = cropsOf(input)
    const seen = beside(input)
    const counts = inSeason(input, input.ledger.crop)
    return judged(input, 'picks').flatMap((pick) => {
      const slips = slipsOf(pick)
      weights(slips, input, { pick, crops: crops.get(pick.block)! })
      hands(slips, input, pick)
      ripeness(slips, input, { pick, seen })
      month(slips, input, pick)
      rest(slips, input, { pick, seen })
      if (crops.get(pick.block)!.get(pick.season) === pick.weight)
        counted(slips, input, { pick, counts: counts(pick) })
      return slips.found
    })
  },
}

/** What was picked of each block in each season, kg. */
function cropsOf({ ledger, asOf }: JudgedLedger): Map<string, Map<number, number>> {
  const crops = new Map<string, Map<number, number>>()
  for (const { block, season, date, weight } of ledger.picks) {
    if (date > asOf) continue
    const seasons = crops.get(block) ?? new Map<number, number>()
    crops.set(block, seasons.set(season, (seasons.get(season) ?? 0) + weight))
  }
  return crops
}

interface PickOfCrops {
  pick: PickEntry
  crops: ReadonlyMap<number, number>
}

function weights(slips: Slips, { ledger }: JudgedLedger, { pick, crops }: PickOfCrops): void {
  const block = ledger.blocks.get(pick.block)
  const { sorted_out = 0 } = pick
  const whole = crops.get(pick.season)!
  const usual = median([...crops].flatMap(([season, kg]) => (season === pick.season ? [] : [kg]))) ?? 0
  const tonnes = block ? whole / 1000 / areaOf(block) : 0
  if (tonnes > 40)
    slips.odd(
      ['weight'],
      `${figureText(whole, 'kg')} of ${block?.name ?? pick.block} in ${pick.season} would be ${figureText(tonnes, 't/ha')}, more than vines carry`,
      'check weight, unit and block',
    )
  else if (slipped(whole, usual) && whole === pick.weight)
    slips.odd(
      ['weight'],
      `${figureText(pick.weight, 'kg')}; picked in other years: ${figureText(usual, 'kg')}`,
      'check the weight and its unit; if only a part was picked, write `rest`',
    )
  else if (sorted_out > pick.weight)
    slips.odd(
      ['sorted_out'],
      `${figureText(sorted_out, 'kg')} thrown away is more than was picked`,
      '`sorted_out` is the part of the weight that was thrown away; check both',
    )
}

/** Times by which a crop may differ from what was counted and weighed shortly before. */
const COUNTED_WITHIN = 1.75
/** Vines and bunches from which such a count says something. */
const ENOUGH = 6

/** Compares a block's only pick with its last count at harvest: too much, or too little where nothing is left. */
function counted(
  slips: Slips,
  { ledger }: JudgedLedger,
  { pick, counts }: { pick: PickEntry; counts: readonly CropEntry[] },
): void {
  const block = ledger.blocks.get(pick.block)
  const count = counts.findLast(({ at, date }) => at === 'harvest' && date <= pick.date)
  const { bunches_per_vine = [], bunch_weight = [] } = count ?? {}
  if (!block || !count || daysBetween(count.date, pick.date) > 21) return
  if (bunches_per_vine.length < ENOUGH || bunch_weight.length < ENOUGH) return
  const kg = (vinesOf(block).alive * median(bunches_per_vine)! * median(bunch_weight)!) / 1000
  const isMore = pick.weight > kg * COUNTED_WITHIN
  const isLess = pick.rest === 0 && pick.weight * COUNTED_WITHIN < kg
  if (isMore || isLess)
    slips.odd(
      ['weight'],
      `${figureText(pick.weight, 'kg')}, but ${figureText(kg, 'kg')} by the bunches counted on ${longDate(count.date)} (${mention(count, ['bunches_per_vine'])})`,
      'check the weight and its unit (kg or lb); if only a part was picked, write `rest`',
    )
}

const RATE = [4, 300, 'kg per person and hour'] as const

function hands(slips: Slips, { ledger: { vineyard } }: JudgedLedger, pick: PickEntry): void {
  const { people, hours, weight, crates, juice } = pick
  const rate = people !== undefined && hours !== undefined ? weight / (people * hours) : undefined
  const litres = juice === undefined ? undefined : (juice * 1000) / weight
  slips.unusual(['weight'], rate, 'picking rate', RATE)
  slips.unusual(['hours'], hours, 'picking day', [0.1, 16, 'h'])
  slips.unusual(['ph'], pick.ph, 'pH of must', [2.6, 4.2])
  slips.unusual(['ta'], pick.ta, 'acidity of must', [2, 25, 'g/L'])
  slips.unusual(['juice'], litres, 'yield of juice', [250, 900, 'L/t'])
  const { crate, picking: usual } = vineyard.harvest ?? {}
  if (rate !== undefined && isUsual(rate, RATE) && usual && (rate > usual * 5 || rate * 5 < usual))
    slips.odd(
      ['weight'],
      `${figureText(rate, 'kg')} per person and hour; usual: ${figureText(usual, 'kg')} (${mention(vineyard, ['harvest', 'picking'])})`,
      '`hours` are those of the whole team by the clock; check hours, people and weight',
    )
  if (!crates || !crate) return
  const perCrate = weight / crates / crate
  if (perCrate > 2 || perCrate < 0.5)
    slips.odd(
      ['crates'],
      `${crates} crates of ${figureText(crate, 'kg')} are not ${figureText(weight, 'kg')} (${mention(vineyard, ['harvest', 'crate'])})`,
      'check the number of crates and the weight, then the weight of a crate in vineyard.yaml',
    )
}

function month(slips: Slips, { ledger }: JudgedLedger, pick: PickEntry): void {
  if (!outOfSeason(ledger.vineyard, pick.date, { first: 7, last: 12 })) return
  slips.found.push(
    findingAt(pick, ['date'], {
      message: `picked on ${longDate(pick.date)}, but no grapes are ripe at that time of year`,
      help: 'check the date; day and month may be swapped',
    }),
  )
}

function ripeness(slips: Slips, input: JudgedLedger, { pick, seen }: { pick: PickEntry; seen: Seen }): void {
  sugar(slips, input, { pick, seen })
  const turned = seen.turned.get(seasonKey(pick))
  const last = seen.green.get(seasonKey(pick))
  const green = last && last.date >= pick.date ? last : undefined
  const soonest = Math.max(10, (varietyOf(input, pick)?.after_veraison?.low ?? 0) / 2)
  const early = turned && turned.stage < 89 && daysBetween(turned.date, pick.date) < soonest ? turned : green
  if (early)
    slips.odd(
      ['date'],
      `picked on ${longDate(pick.date)}, when ${blockName(input, pick.block)} had hardly begun to ripen: stage ${early.stage} on ${longDate(early.date)} (${mention(early, ['stage'])})`,
      'check the date and the block of the pick, then the stage',
    )
}

const SUGAR = [10, 32] as const

/** Checks the sugar by itself, then against its target, then against the last sample. */
function sugar(slips: Slips, input: JudgedLedger, { pick, seen }: { pick: PickEntry; seen: Seen }): void {
  const { brix } = pick
  if (brix === undefined) return
  slips.unusual(['brix'], brix, 'sugar at picking', SUGAR)
  if (!isUsual(brix, SUGAR)) return
  const target = targetOf(input, pick)
  if (target && (brix < target.low - FAR_OFF || brix > target.high + FAR_OFF)) {
    slips.odd(
      ['brix'],
      `${figureText(brix)} Brix; ripe: ${figureText(target.low)}-${figureText(target.high)}`,
      'check the reading (Brix, not °Oechsle) and the block',
    )
    return
  }
  const sample = sampleBefore(seen, pick)
  if (!sample) return
  const read = readSample(sample).reading!
  const most = daysBetween(sample.date, pick.date) <= 3 ? 2.5 : 4
  if (Math.abs(brix - read) > most)
    slips.odd(
      ['brix'],
      `${figureText(brix)} Brix at the press, but ${figureText(read)} in the sample of ${longDate(sample.date)} (${mention(sample, [keyOf(sample, 'brix')])})`,
      'check both readings and the block',
    )
}

/** Brix by which a must may miss its target and still be meant: sparkling wine, a wet year, raisins. */
const FAR_OFF = 7

const varietyOf = ({ ledger }: JudgedLedger, { block }: PickEntry) =>
  ledger.varieties.get(ledger.blocks.get(block)?.variety ?? '')

const targetOf = (input: JudgedLedger, pick: PickEntry) =>
  input.ledger.blocks.get(pick.block)?.targets?.brix ?? varietyOf(input, pick)?.targets?.brix

/** A pick recorded as leaving nothing, with another pick on a later day. */
function rest(
  slips: Slips,
  input: JudgedLedger,
  { pick, seen: { picks } }: { pick: PickEntry; seen: Seen },
): void {
  if (pick.rest === 100)
    slips.odd(
      ['rest'],
      `all of ${blockName(input, pick.block)} still hangs, but ${figureText(pick.weight, 'kg')} were picked`,
      '`rest` is the share left on the vines, in %: write 0 where all was picked',
    )
  if (pick.rest !== 0) return
  const list = picks.get(seasonKey(pick)) ?? []
  const later = list[countUpTo(list, pick.date)]
  if (later)
    slips.odd(
      ['rest'],
      `nothing was left on ${blockName(input, pick.block)}, but more was picked on ${longDate(later.date)} (${mention(later, ['date'])})`,
      'correct `rest`, or the date or block of the later pick',
    )
}
