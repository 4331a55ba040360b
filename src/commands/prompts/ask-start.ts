import { inMemory } from '../../ledger/write/in-memory.ts'
import { type Starter, starterFiles } from '../../ledger/write/starter-files.ts'
import { addAll } from '../../records/add-all.ts'
import { noteRecords } from '../../reports/note/record-report.ts'
import type { Env } from '../plumbing/env.ts'
import { askAll, type Screen } from './ask-all.ts'
import { LineInput } from './line-input.ts'
import { askRecord, type RecordJob, recordOf } from './note-record.ts'
import { startQuestions } from './start-questions.ts'

interface Answered {
  starter: Starter
  /** The files of the first block, its variety and the sprayer. */
  files: Record<string, string>
}

interface Known extends Starter {
  folder: string
  asOf: string
  /** Options that were typed. */
  typed: ReadonlySet<string>
}

/** Asks the questions of `start` that no option answers. @returns the answers so far as options where the grower left. */
export async function askStart(
  known: Known,
  { err, columns }: Pick<Env, 'err' | 'columns'>,
): Promise<Answered | { left: ReadonlyMap<string, string> }> {
  const screen = { input: new LineInput(), say: err, columns }
  try {
    let units = known.units
    const { answers, left } = await askAll((so) => {
      units = (so.get('units')?.[0]?.text as Starter['units'] | undefined) ?? known.units
      return startQuestions({ ...known, units })
    }, screen)
    const said = new Map([...answers.values()].flat().map(({ option, text }) => [option, text]))
    const starter: Starter = {
      name: said.get('name') ?? known.name,
      latitude: numberOf(said.get('latitude')) ?? known.latitude,
      longitude: numberOf(said.get('longitude')) ?? known.longitude,
      timezone: known.timezone,
      units,
    }
    if (left) return { left: said }
    const files = await firstRecords(said, { starter, asOf: known.asOf }, screen)
    return files ? { starter, files } : { left: said }
  } finally {
    screen.input.close()
  }
}

const numberOf = (text: string | undefined) => (text === undefined ? null : Number(text))

/** Files of the first block and the sprayer, by path; null where the grower left. */
async function firstRecords(
  said: ReadonlyMap<string, string>,
  { starter, asOf }: { starter: Starter; asOf: string },
  screen: Screen,
): Promise<Record<string, string> | null> {
  const input = { ledger: inMemory(starterFiles(starter)), asOf }
  const jobs: RecordJob[] = []
  const [block, sprayer, tank] = ['block', 'sprayer', 'tank'].map((option) => said.get(option))
  if (sprayer !== undefined && tank !== undefined)
    jobs.push({
      kind: 'sprayers',
      typed: new Map([
        ['name', [sprayer]],
        ['tank', [tank]],
      ]),
    })
  if (block !== undefined) {
    screen.say(`\nNow ${block}.\n`)
    const asked = await askRecord(input, { kind: 'blocks', typed: new Map([['name', [block]]]) }, screen)
    if (asked.left) return null
    addAll(jobs, asked.jobs)
  }
  if (jobs.length === 0) return {}
  const { records } = noteRecords(
    { ...input, season: 0, blocks: [] },
    jobs.map((job) => recordOf(job, input)),
  )
  return Object.fromEntries(records.map(({ file, text }) => [file, text]))
}
