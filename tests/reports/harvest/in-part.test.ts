import { describe, expect, test } from 'vitest'
import { windowOf } from '../../../src/facts/window/block-window.ts'
import { openLedger } from '../../../src/ledger/read/open.ts'
import { addDays } from '../../../src/records/date.ts'
import { calendar } from '../../../src/reports/calendar/report.ts'
import { harvest } from '../../../src/reports/harvest/report.ts'
import { ready } from '../../../src/reports/ready/report.ts'
import { today } from '../../../src/reports/today/report.ts'
import { runHere } from '../../faults/in-process.ts'
import { makeLedger } from '../../ledger/make.ts'

const S = 'seasons/2026'
const AS_OF = '2026-09-14'

/** A block at about 19.4 of 20 Brix, sampled weekly up to 9 September, with its bunches counted. */
const RIPENING = {
  [`${S}/samples.yaml`]: [15.4, 16.8, 18.1, 19.2]
    .map(
      (brix, week) =>
        `- { date: ${addDays('2026-08-19', 7 * week)}, block: upper, brix: ${brix}, berries: 100 }\n`,
    )
    .join(''),
  [`${S}/crop.yaml`]:
    '- { date: 2026-09-05, block: upper, at: harvest, bunches_per_vine: [18, 22, 19, 25, 21], bunch_weight: [98 g, 105 g, 91 g] }\n',
}
const pick = (date: string, rest: string) => `- { date: ${date}, block: upper, weight: 900 kg${rest} }\n`

function filesOf(picks: string, more: Record<string, string> = {}) {
  return makeLedger({ ...RIPENING, ...(picks && { [`${S}/picks.yaml`]: picks }), ...more })
}
function inputOf(...files: Parameters<typeof filesOf>) {
  const ledger = openLedger(filesOf(...files), { seasons: 'all' })
  expect(ledger.findings.filter(({ level }) => level === 'error')).toEqual([])
  return { ledger, season: 2026, asOf: AS_OF, blocks: [ledger.blocks.get('upper')!] }
}
const harvestText = async (...files: Parameters<typeof filesOf>) => {
  const line = ['harvest', '--block', 'upper', '--as-of', AS_OF, '--ledger', filesOf(...files)]
  return (await runHere(line)).out.replace(/\s+/g, ' ')
}

const PART = pick('2026-09-12', ', rest: 40 %')
const SAID = 'Picked in part on Sat 12 Sep: 40 % of the block still hangs.'
const AGAIN = 'Sample that part: samples of the whole block may not hold for it.'

describe('after a pick in part', () => {
  test('harvest plans the share that hangs: its crop, its range, its day', async () => {
    const [whole, part] = ['', PART].map((picks) => harvest(inputOf(picks)).data)
    const [planned, left] = [whole!.blocks[0]!, part!.blocks[0]!]
    expect(left.crop!.value).toBeCloseTo(0.4 * planned.crop!.value, 6)
    expect(left.range.crop!.low!).toBeCloseTo(0.4 * planned.range.crop!.low!, 6)
    expect(left.range.crop!.high!).toBeCloseTo(0.4 * planned.range.crop!.high!, 6)
    expect(part!.totals.crop!.value).toBeCloseTo(left.crop!.value, 6)
    expect(part!.totals.range.crop!.high!).toBeCloseTo(left.range.crop!.high!, 6)
    expect(left.picked).toMatchObject({ weight: 900, rest: 0.4, againstPlan: null })
    expect(part!.day!.steps.map(({ block }) => block)).toContain('upper')
    const text = await harvestText(PART)
    expect(text).toMatch(/^Pick the rest of Upper first/)
    expect(text).toContain(
      'picked in part Sat 12 Sep, 900 kg; 40 % still to pick, which the plan above is for.',
    )
  })

  test('a growth factor is spread over the rest as over the whole', () => {
    const lag = { [`${S}/crop.yaml`]: RIPENING[`${S}/crop.yaml`]!.replace('harvest', 'lag') }
    const [whole, part] = ['', PART].map((picks) => harvest(inputOf(picks, lag)).data.blocks[0]!)
    for (const end of ['low', 'likely', 'high'] as const)
      expect(part!.range.crop![end]!).toBeCloseTo(0.4 * whole!.range.crop![end]!, 6)
  })

  test('once nothing hangs, the whole is held against the plan, and no day is planned', async () => {
    const { blocks, day } = harvest(inputOf(PART + pick('2026-09-13', ', rest: 0 %'))).data
    const { crop, picked } = blocks[0]!
    expect(picked!.againstPlan).toBeCloseTo(1800 / crop!.value - 1, 9)
    expect(crop!.value).toBeCloseTo(harvest(inputOf('')).data.blocks[0]!.crop!.value, 9)
    expect(day).toBeNull()
    expect(await harvestText(PART + pick('2026-09-13', ''))).toMatch(/^Nothing is left to pick\./)
  })

  test('window still suggests a sample, and says what hangs; it is picked on the day when nothing does', () => {
    const at = (picks: string, more?: Record<string, string>) => {
      const input = inputOf(picks, more)
      return windowOf(input.blocks[0]!, input)
    }
    expect(at('').next_sample).not.toBeNull()
    expect(at(PART)).toMatchObject({ picked: null, conflicts: [`${SAID} ${AGAIN}`] })
    expect(at(PART).next_sample).toEqual(at('').next_sample)
    const gone = at(PART + pick('2026-09-13', ''))
    expect(gone).toMatchObject({ picked: '2026-09-13', next_sample: null, conflicts: [] })
    const resampled = `${RIPENING[`${S}/samples.yaml`]}- { date: 2026-09-13, block: upper, brix: 19.4, berries: 100 }\n`
    expect(at(PART, { [`${S}/samples.yaml`]: resampled }).conflicts).toEqual([SAID])
  })

  test('ready judges the rest, counts only its crop, and adds up the picks once nothing hangs', () => {
    const page = (picks: string) => ready(inputOf(picks)).data.blocks[0]!
    const crop = (picks: string) => page(picks).gates.find(({ gate }) => gate === 'crop')!
    expect(page(PART)).toMatchObject({ picked: null, conflicts: [`${SAID} ${AGAIN}`] })
    expect(crop(PART)).toMatchObject({
      state: 'pass',
      detail: expect.stringMatching(/, the 40 % that still hangs$/),
    })
    expect(crop('').detail).not.toContain('hangs')
    const gone = page(PART + pick('2026-09-13', ''))
    expect(gone).toMatchObject({ picked: { date: '2026-09-13', weight: { value: 1800, unit: 'kg' } } })
  })

  test('today and the calendar say what hangs', () => {
    const said = (picks: string) => {
      const item = today(inputOf(picks)).data.items.find(({ what }) => what === 'window')
      const event = calendar(inputOf(picks)).data.events.find(({ kind }) => kind === 'window')
      return [item?.text, event?.detail]
    }
    for (const text of said(PART)) expect(text).toContain(SAID)
    const line = today(inputOf(PART)).data.items.find(({ what }) => what === 'window')
    expect(line?.short).toMatch(/\. 40 % still to pick\.$/)
    const long = today({ ...inputOf(PART), asOf: '2026-10-30' }).data.items.find(
      ({ what }) => what === 'window',
    )
    expect(long?.text).toContain(SAID)
    expect(long?.text).not.toContain('No pick recorded')
    for (const text of said('')) expect(text).not.toContain('still hangs')
    expect(said(PART + pick('2026-09-13', ''))).toEqual([undefined, undefined])
  })
})

test('a block of which nothing is picked is named beside the rest of another', async () => {
  const root = makeLedger({ [`${S}/picks.yaml`]: PART })
  const { out } = await runHere(['harvest', '--as-of', AS_OF, '--ledger', root])
  expect(out.replace(/\s+/g, ' ')).toMatch(
    /^Still to pick: (?:Lower and 40 % of Upper|40 % of Upper and Lower)\. No crop/,
  )
  const asked = await runHere([
    'harvest',
    '--block',
    'upper',
    '--as-of',
    AS_OF,
    '--ledger',
    root,
    '--ics',
    'day.ics',
  ])
  expect(asked.err).toContain('no picking day is known yet')
})
