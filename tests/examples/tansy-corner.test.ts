import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import { openLedger } from '../../src/ledger/read/open.ts'
import { runHere } from '../faults/in-process.ts'
import { EVENINGS, LAST_EVENINGS } from './tansy-evenings.ts'

const EXAMPLE = fileURLToPath(new URL('../../examples/tansy-corner', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'rowbook-tansy-'))
const ledger = join(folder, 'tansy-corner')
afterAll(() => rmSync(folder, { recursive: true }))

/** The words of a command line, quotes taken off. */
const wordsOf = (line: string) =>
  [...line.matchAll(/(?:"[^"]*"|[^\s"])+/g)].map(([word]) => word.replaceAll('"', ''))

async function type(day: string, line: string, root = ledger) {
  const ran = await runHere([...wordsOf(line), '--ledger', root, '--as-of', day])
  return { ...ran, said: ran.out.replace(/\s+/g, ' ') }
}

/** Types an entry, which must be accepted without a warning. */
async function note(day: string, line: string) {
  const ran = await type(day, `note ${line} --yes`)
  expect([day, line, ran.err, ran.status]).toEqual([day, line, '', 0])
  expect(ran.out).toMatch(/^Written: /)
  expect(ran.out).not.toMatch(/\b(?:hint|warning|error)\b/)
  return ran
}

async function evenings(all: typeof EVENINGS) {
  for (const [day, ...lines] of all) for (const line of lines) await note(day, line)
}

async function dataOf(root: string, line: string, day: string) {
  const ran = await type(day, `${line} --json`, root)
  return JSON.parse(ran.out).data
}

describe('the example of a hobby plot', () => {
  const all = openLedger(EXAMPLE, { seasons: 'all' })
  const files = readdirSync(EXAMPLE, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.yaml'),
  )

  it('is 180 and 240 vines with a knapsack, and says in every file that it is invented', () => {
    expect([...all.blocks.values()].map(({ vines }) => vines)).toEqual([180, 240])
    expect([...all.sprayers.values()].map(({ tank }) => tank)).toEqual([12])
    expect(files.length).toBeGreaterThan(100)
    const silent = files.filter(
      (file) => !/^# invented example/.test(readFileSync(join(EXAMPLE, file), 'utf8')),
    )
    expect(silent).toEqual([])
  })

  it('is clean, without so much as a hint', async () => {
    expect((await type('2026-09-26', 'check --all', EXAMPLE)).out).toBe(
      `0 errors, 0 warnings in ${files.length} files.\n`,
    )
  })

  it('has no acid, and says yes to House Side the day before it is picked and to Plum Side on its day', async () => {
    expect(all.samples.filter(({ ta, ph }) => ta !== undefined || ph !== undefined)).toEqual([])
    const verdicts = async (day: string) =>
      (await dataOf(EXAMPLE, 'ready --all', day)).blocks.map(({ verdict }: { verdict: string }) => verdict)
    expect(await verdicts('2026-09-06')).toEqual(['wait', 'wait'])
    expect(await verdicts('2026-09-16')).toEqual(['ready', 'wait'])
    expect(await verdicts('2026-09-25')).toEqual(['ready', 'ready'])
  })

  it('asks of an ordinary day no more than five things', async () => {
    for (const day of ['03-10', '04-20', '05-15', '06-05', '06-20', '07-13', '08-10', '08-31', '09-14']) {
      const { items } = await dataOf(EXAMPLE, 'today', `2026-${day}`)
      expect(items.length, day).toBeLessThanOrEqual(5)
    }
  })

  it('does not nag about rot that days cannot tell, but after a week of rain', async () => {
    const said = async (day: string) => (await type(day, 'today', EXAMPLE)).said
    expect(await said('2026-08-31')).toContain('plan Danger today: botrytis unknown.')
    expect(await said('2026-08-31')).not.toContain('soon')
    expect(await said('2026-07-20')).toContain(
      'soon Botrytis danger unknown, unprotected: all blocks. Rain on 4 of 7 days',
    )
  })

  it('looks for oil spots only where no round was since they were due', async () => {
    const { items } = await dataOf(EXAMPLE, 'today', '2026-07-26')
    // Plum Side was scouted on the 26th, House Side last on the 19th; spots were due from the 24th.
    expect(items[0]).toMatchObject({ what: 'walk', disease: 'downy', blocks: ['house-side'] })
  })

  it('plans the picking in the buckets that were weighed, not in crates that nobody has', async () => {
    // 314 kg and 611 kg in buckets of 9 kg.
    expect((await type('2026-09-16', 'harvest', EXAMPLE)).said).toMatch(
      /kg, 35 buckets, .* 611 kg, 68 buckets,/,
    )
  })

  it('says which part a spot spray protects, and rests the whole on the spray of the whole', async () => {
    const on = async (day: string) => (await type(day, 'cover', EXAMPLE)).out
    // 12 of 240 vines on 13 July; the sulphur of 3 July lasts 12 days.
    expect((await on('2026-07-17')).replace(/\s+/g, ' ')).toContain(
      'Plum Side is protected against powdery in part only: 5 % until 18 Jul.',
    )
    expect(await on('2026-07-15')).toMatch(/Plum Side +powdery +protected +Tansy +3 Jul +15 Jul/)
    expect(await on('2026-07-17')).not.toContain('rain and pressure are unknown')
  })

  it('tells when each block may reach its sugar', async () => {
    const { blocks } = await dataOf(EXAMPLE, 'window', '2026-09-06')
    for (const block of blocks) {
      expect(block.earliest <= block.likely && block.likely <= block.latest).toBe(true)
    }
    expect(blocks[0].latest >= '2026-09-12' && blocks[0].earliest <= '2026-09-15').toBe(true)
  })
})

describe('its second season, typed by note on a copy that ends with 2025', () => {
  it('begins in January with 2025 alone, and a sprayer that was not measured', async () => {
    cpSync(EXAMPLE, ledger, { recursive: true })
    rmSync(join(ledger, 'seasons/2026'), { recursive: true })
    const sprayer = join(ledger, 'sprayers/knapsack.yaml')
    writeFileSync(
      sprayer,
      readFileSync(sprayer, 'utf8').replace(/^(?:water|flow|calibrated|speed): .*\n/gm, ''),
    )
    expect((await type('2026-01-10', 'check')).out).toContain('0 errors, 0 warnings')
    expect((await type('2026-01-10', 'today')).out).toContain('nothing recorded is due')
  })

  it('takes the weather of each week by hand, the day that was not read left out', async () => {
    for (const file of readdirSync(join(EXAMPLE, 'seasons/2026/weather')).sort()) {
      const text = readFileSync(join(EXAMPLE, 'seasons/2026/weather', file), 'utf8')
      const days = [...text.matchAll(/date: (\S+), low: (\S+) C, high: (\S+) C, rain: (\S+) mm/g)]
      const typed = days.map(([, date, low, high, rain]) => `--day "${date} ${low} ${high} ${rain}"`)
      await note(days.at(-1)![1]!, `weather ${typed.join(' ')}`)
    }
  }, 60_000)

  it('keeps what the knapsack gives, and fills it by that', async () => {
    const { out } = await type(
      '2026-04-25',
      'calibrate --caught 3L --plot 72m2 --seconds 180 --width 2m --tank 12L --save',
    )
    expect(out).toContain('now  water: 416.7 L/ha')
    const { said } = await type('2026-05-02', 'mix --block all --dose "copper=20 g in 10 L"')
    // 180 x 2 m x 1 m and 240 x 1.8 m x 1.1 m are 835.2 m2: 34.8 L at 416.7 L/ha, and 2 g in each.
    expect(said).toContain('2 full tanks of 12 L, then 10.8 L')
    expect(said).toMatch(/Tansy Copper 30 \(WG\) 24 g 21\.6 g 69\.6 g/)
  })

  it('takes the season in words, from the pruning to the last sample of House Side', async () => {
    await evenings(EVENINGS)
  }, 60_000)

  it('takes a find, the spray of those vines, and the next round', async () => {
    const found = await note(
      '2026-07-12',
      'scouting --block plum --looked-at "50 bunches, 50 leaves" --found "powdery 3 of 50 bunches, rest clean" --found powdery.rows=8-9 --note "White dust on three bunches, rows 8 and 9, the shaded end."',
    )
    expect(found.said).toContain('--rows 8-9')
    const { said } = await type(
      '2026-07-12',
      'mix --spot --block plum --vines 12 --water 2L --dose "bicarbonate=100 g in 10 L"',
    )
    expect(said).toContain('20 g of Tansy Bicarbonate')
    await note(
      '2026-07-13',
      'spray --block plum --time 20:00-20:15 --method spot --vines 12 --water 2L --product "bicarbonate=100 g in 10 L" --for powdery --weather "1 m/s 26 C" --operator "M. T." --note "The vines with white dust and their neighbours, rows 8 and 9."',
    )
    expect((await type('2026-07-14', 'today')).said).toContain('Plum Side (powdery, treated 13 Jul)')
  })

  it('takes back a stage typed twice, and corrects a pick by its buckets', async () => {
    await note('2026-08-23', 'stage --block plum --stage ripe')
    expect((await type('2026-08-23', 'note --undo --yes')).status).toBe(0)
    const first = await note(
      '2026-09-17',
      'pick --block house --time 14:30-19:00 --weight "29 buckets" --people 3 --hours 4 --brix 19.4 --juice 165L --rest "0 %" --sorted-out "4 kg" --note "Before the rain."',
    )
    expect(first.out).toContain('weight: 261 kg')
    const amended = await type('2026-09-17', 'note --amend last --weight "30 buckets" --yes')
    expect([amended.status, amended.err]).toEqual([0, ''])
    await evenings(LAST_EVENINGS)
  })

  it('is told yes on the harvest day, and picks', async () => {
    const { status, out } = await type('2026-09-26', 'ready --block plum')
    expect(out).toContain('Nothing recorded forbids picking Plum Side')
    expect(status).toBe(0)
    await note(
      '2026-09-26',
      'pick --block plum --time 09:30-14:30 --weight "29 buckets" --people 3 --hours 4.5 --brix 20.3 --rest "0 %" --sorted-out "2 kg"',
    )
  })

  it('comes to the same sums as the files of the example', async () => {
    for (const line of [
      'totals',
      'heat',
      'crop',
      'scouting',
      'ripeness',
      'window',
      'ready --all',
      'compare 2025 2026',
    ]) {
      expect(await dataOf(ledger, line, '2026-09-26'), line).toEqual(
        await dataOf(EXAMPLE, line, '2026-09-26'),
      )
    }
    expect((await type('2026-09-26', 'check --all')).out).toMatch(/^0 errors, 0 warnings in \d+ files\.\n$/)
  }, 60_000)
})
