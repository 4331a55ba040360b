import { median, slipped } from '../../agronomy/statistics/median.ts'
import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { inSeason, type JudgedLedger, judged } from '../../facts/judged.ts'
import { ripeningSeen } from '../../facts/ripeness/ripening.ts'
import { readSample } from '../../facts/ripeness/sample.ts'
import { figureText } from '../../facts/sentences.ts'
import type { PickEntry } from '../../ledger/read/ledger.ts'
import { daysBetween } from '../../records/date.ts'
import { longDate } from '../../records/spoken-date.ts'
import { blockName, mention, PRACTICE, type Rule } from '../rule.ts'
import { keyOf } from './unlikely-sample.ts'
import { isUsual, outOfSeason, type Slips, SWAPPED, slipsIn, type Usual } from './usual.ts'

/** A pick too large for the vines or the pickers. */
export const unlikelyPick: Rule = {
  name: 'unlikely-pick',
  what: 'The weight of a pick is more than any vineyard bears. Or it is ten times other years, or a tenth. Or the people could not pick it in those hours. Or it does not fit the crates, the juice, the bunches counted or the sugar of the last sample. Or the block had not begun to ripen, or grapes are not ripe at that time of year.',
  limits:
    'Usual are: up to 40 t/ha; 4 to 300 kg per person and hour, within five times `harvest: picking`; crates within twice `harvest: crate`; juice up to 900 L/t. Sugar is within 4 Brix of a sample of the last ten days, and 2.5 of the last three. A whole crop is within 1.75 times what was counted at harvest, and 7 times the target. Half of `after_veraison` is over. Picks are from July to December in the north, half a year later in the south.',
  ...PRACTICE,
  check: (input) => {
    const known = knownOf(input)
    return slipsIn(judged(input, 'picks'), (slips, pick) => {
      const here = known(pick)
      weights(slips, pick, here)
      hands(slips, pick, here)
      sugar(slips, pick, here)
      ripeness(slips, pick, here)
      rest(slips, pick, here)
      counted(slips, pick, here)
    })
  },
}

type Here = ReturnType<ReturnType<typeof knownOf>>

/** Looks up what a pick is compared with: its block and variety, and the entries of that block and season. */
function knownOf(input: JudgedLedger) {
  const { ledger, asOf } = input
  const { blocks, varieties, vineyard } = ledger
  const ripening = ripeningSeen(input)
  const green = inSeason(
    input,
    ledger.stages.filter(({ stage }) => stage < 81),
  )
  const [samples, counts] = [inSeason(input, ledger.samples), inSeason(input, ledger.crop)]
  const picks = inSeason(input, ledger.picks)
  /** What was picked of each block in each season, kg. */
  const crops = new Map<string, Map<number, number>>()
  for (const { block, season, date, weight } of ledger.picks) {
    if (date > asOf) continue
    const seasons = crops.get(block) ?? new Map<number, number>()
    crops.set(block, seasons.set(season, (seasons.get(season) ?? 0) + weight))
  }
  return (pick: PickEntry) => {
    const block = blocks.get(pick.block)
    const seasons = crops.get(pick.block)!
    return {
      vineyard,
      block,
      name: blockName(input, pick.block),
      variety: varieties.get(block?.variety ?? ''),
      turned: ripening(pick),
      green: green(pick).at(-1),
      samples: samples(pick),
      counts: counts(pick),
      picks: picks(pick),
      whole: seasons.get(pick.season)!,
      others: [...seasons].flatMap(([season, kg]) => (season === pick.season ? [] : [kg])),
    }
  }
}

function weights(slips: Slips, { sorted_out = 0, weight, season }: PickEntry, here: Here): void {
  const { block, name, whole, others } = here
  const usual = median(others) ?? 0
  const tonnes = block ? whole / 1000 / areaOf(block) : 0
  if (tonnes > 40)
    slips.odd(
      ['weight'],
      `${figureText(whole, 'kg')} of ${name} in ${season} would be ${figureText(tonnes, 't/ha')}, more than vines carry`,
      'check weight, unit and block',
    )
  else if (slipped(whole, usual) && whole === weight)
    slips.odd(
      ['weight'],
      `${figureText(weight, 'kg')}; picked in other years: ${figureText(usual, 'kg')}`,
      'check the weight and its unit; if only a part was picked, write `rest`',
    )
  else if (sorted_out > weight)
    slips.odd(
      ['sorted_out'],
      `${figureText(sorted_out, 'kg')} thrown away is more than was picked`,
      '`sorted_out` is the part of the weight that was thrown away; check both',
    )
}

const RATE = [4, 300, 'kg per person and hour'] as const
const USUAL: Usual = {
  hours: ['picking day', 0.1, 16, 'h'],
  ph: ['pH of must', 2.6, 4.2],
  ta: ['acidity of must', 2, 25, 'g/L'],
}

function hands(slips: Slips, { people, hours, weight, crates, juice }: PickEntry, { vineyard }: Here): void {
  const rate = people !== undefined && hours !== undefined ? weight / (people * hours) : undefined
  slips.unusual(['weight'], rate, 'picking rate', RATE)
  slips.compare(USUAL)
  slips.unusual(['juice'], juice && (juice * 1000) / weight, 'yield of juice', [250, 900, 'L/t'])
  const { crate, picking: usual } = vineyard.harvest ?? {}
  if (rate !== undefined && isUsual(rate, RATE) && usual && (rate > usual * 5 || rate * 5 < usual))
    slips.odd(
      ['weight'],
      `${figureText(rate, 'kg')} per person and hour; usual: ${figureText(usual, 'kg')} (${mention(vineyard, ['harvest', 'picking'])})`,
      '`hours` are those of the whole team by the clock; check hours, people and weight',
    )
  const perCrate = crates && crate ? weight / crates / crate : 1
  if (perCrate > 2 || perCrate < 0.5)
    slips.odd(
      ['crates'],
      `${crates} crates of ${figureText(crate!, 'kg')} are not ${figureText(weight, 'kg')} (${mention(vineyard, ['harvest', 'crate'])})`,
      'check the number of crates and the weight, then the weight of a crate in vineyard.yaml',
    )
}

function ripeness(slips: Slips, { date }: PickEntry, here: Here): void {
  const { vineyard, name, turned, green, variety } = here
  const soonest = Math.max(10, (variety?.after_veraison?.low ?? 0) / 2)
  const hasJustTurned = turned && turned.stage < 89 && daysBetween(turned.date, date) < soonest
  const early = hasJustTurned ? turned : green && green.date >= date ? green : null
  if (early)
    slips.odd(
      ['date'],
      `picked on ${longDate(date)}, when ${name} had hardly begun to ripen: stage ${early.stage} on ${longDate(early.date)} (${mention(early, ['stage'])})`,
      'check the date and the block of the pick, then the stage',
    )
  if (outOfSeason(vineyard, date, [7, 12]))
    slips.odd(['date'], `picked on ${longDate(date)}, but no grapes are ripe at that time of year`, SWAPPED)
}

const SUGAR = [10, 32] as const

/** Brix by which a must may miss its target and still be meant: sparkling wine, a wet year, raisins. */
const FAR_OFF = 7

/** Checks the sugar by itself, then against its target, then against the last sample of ten days up to the pick. */
function sugar(slips: Slips, { date, brix }: PickEntry, { block, variety, samples }: Here): void {
  slips.unusual(['brix'], brix, 'sugar at picking', SUGAR)
  if (brix === undefined || !isUsual(brix, SUGAR)) return
  const target = block?.targets?.brix ?? variety?.targets?.brix
  const isFarOff = target && (brix < target.low - FAR_OFF || brix > target.high + FAR_OFF)
  const sample = samples.findLast((one) => one.date <= date && readSample(one).reading !== null)
  const days = sample ? daysBetween(sample.date, date) : Infinity
  const read = sample && readSample(sample).reading!
  if (isFarOff)
    slips.odd(
      ['brix'],
      `${figureText(brix)} Brix; ripe: ${figureText(target.low)}-${figureText(target.high)}`,
      'check the reading (Brix, not °Oechsle) and the block',
    )
  else if (sample && days <= 10 && Math.abs(brix - read!) > (days <= 3 ? 2.5 : 4))
    slips.odd(
      ['brix'],
      `${figureText(brix)} Brix at the press, but ${figureText(read!)} in the sample of ${longDate(sample.date)} (${mention(sample, [keyOf(sample, 'brix')])})`,
      'check both readings and the block',
    )
}

/** A pick that left everything; or one recorded as leaving nothing, with another pick on a later day. */
function rest(slips: Slips, pick: PickEntry, { name, picks }: Here): void {
  if (pick.rest === 100)
    slips.odd(
      ['rest'],
      `all of ${name} still hangs, but ${figureText(pick.weight, 'kg')} were picked`,
      '`rest` is the share left on the vines, in %: write 0 where all was picked',
    )
  const later = pick.rest === 0 ? picks.find(({ date }) => date > pick.date) : undefined
  if (later)
    slips.odd(
      ['rest'],
      `nothing was left on ${name}, but more was picked on ${longDate(later.date)} (${mention(later, ['date'])})`,
      'correct `rest`, or the date or block of the later pick',
    )
}

/** Times by which a crop may differ from what was counted and weighed shortly before. */
const COUNTED_WITHIN = 1.75
/** Vines and bunches from which such a count says something. */
const ENOUGH = 6

/** Compares a block's only pick with its last count at harvest: too much, or too little where nothing is left. */
function counted(slips: Slips, pick: PickEntry, { block, whole, counts }: Here): void {
  const { weight } = pick
  if (!block || whole !== weight) return
  const count = counts.findLast(({ at, date }) => at === 'harvest' && date <= pick.date)
  const { bunches_per_vine = [], bunch_weight = [] } = count ?? {}
  if (!count || daysBetween(count.date, pick.date) > 21) return
  if (bunches_per_vine.length < ENOUGH || bunch_weight.length < ENOUGH) return
  const kg = (vinesOf(block).alive * median(bunches_per_vine)! * median(bunch_weight)!) / 1000
  if (weight > kg * COUNTED_WITHIN || (pick.rest === 0 && weight * COUNTED_WITHIN < kg))
    slips.odd(
      ['weight'],
      `${figureText(weight, 'kg')}, but ${figureText(kg, 'kg')} by the bunches counted on ${longDate(count.date)} (${mention(count, ['bunches_per_vine'])})`,
      'check the weight and its unit (kg or lb); if only a part was picked, write `rest`',
    )
}
