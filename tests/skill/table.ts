import { ACID_FAMILIES, simulateAcid } from './acid.ts'
import { BASELINES } from './ask.ts'
import { FAMILIES } from './families.ts'
import { DISTANCES, type Distance, LEADS, type Outcome, over, simulate } from './run.ts'
import { type Summary, summaryOf } from './score.ts'

const DISTANCE_NAMES = Object.keys(DISTANCES) as Distance[]
const percent = (share: number) => `${Math.round(100 * share)} %`

function print(rows: readonly (readonly string[])[]): void {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)))
  const line = (row: readonly string[]) =>
    row.map((cell, at) => (at === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[at]!))).join('  ')
  console.log(`${rows.map((row) => line(row).trimEnd()).join('\n')}\n`)
}

const cells = ({ told, held, open, width, error, score }: Summary) => [
  ...[percent(told), percent(held), percent(open), `${width} d`, `${error.toFixed(1)} d`, score.toFixed(1)],
]
/** Days before acid or pH comes into its range. */
const ACID_LEADS = [21, 14, 7]
const HEAD = ['told', 'held', 'open', 'width', 'error', 'score']

/** Prints how good the windows are on simulated seasons: `npm run skill -- SEASONS SEED`. */
export function printSkill(seasons: number, seed: number): void {
  const outcomes = simulate({ seasons, seed, baselines: true })
  const ways = [...new Set(outcomes.map(({ way }) => way))]
  console.log(
    `${FAMILIES.length} families of curves, ${seasons} simulated seasons of each (seed ${seed}). Held: 90 % is meant. Open:\nan end beyond 60 days, scored as 60. Error: the likely day, in the mean. Score: interval score, lower is better.\n`,
  )
  for (const way of ways) {
    const rows = [...DISTANCE_NAMES.map((distance) => ({ name: distance, distances: [distance] }))]
    print([
      [way, ...HEAD],
      ...rows.map(({ name, distances }) => [name, ...cells(over(outcomes, { way, distances }))]),
      ['days together', ...cells(over(outcomes, { way, distances: LEADS }))],
    ])
  }
  for (const way of ['samples', 'all of them', ...Object.keys(BASELINES)]) printFamilies(outcomes, way)
}

function printFamilies(outcomes: readonly Outcome[], way: string): void {
  const cell = (family: string, distance: Distance) => {
    const { told, held, width, error, score } = over(outcomes, { way, family, distances: [distance] })
    return `${percent(told)} ${percent(held)} ${width} ${error.toFixed(1)} ${score.toFixed(0)}`
  }
  print([
    [`${way}: told, held, width, error, score`, ...DISTANCE_NAMES],
    ...FAMILIES.map(({ name, keptOut }) => [
      `${name}${keptOut ? ' (kept out)' : ''}`,
      ...DISTANCE_NAMES.map((distance) => cell(name, distance)),
    ]),
  ])
}

/** Prints how good the windows of acid and pH are, by days before the range is reached. */
function printAcid(seasons: number, seed: number): void {
  print([
    ['acid and pH: told, held, width, score', ...ACID_LEADS.map((lead) => `${lead} days`)],
    ...ACID_FAMILIES.map((family) => [
      `${family.name}${family.keptOut ? ' (kept out)' : ''}`,
      ...ACID_LEADS.map((lead) => {
        const { told, held, width, score } = summaryOf(simulateAcid(family, { seasons, lead, seed }))
        return `${percent(told)} ${percent(held)} ${width} d ${score.toFixed(0)}`
      }),
    ]),
  ])
}

const [seasons = '25', seed = '1'] = process.argv.slice(2)
printSkill(Number(seasons), Number(seed))
printAcid(Number(seasons), Number(seed))
