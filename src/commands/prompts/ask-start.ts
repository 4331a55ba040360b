import { inMemory } from '../../ledger/write/in-memory.ts'
import { type Starter, starterFiles } from '../../ledger/write/starter-files.ts'
import { renderFindings } from '../../render/findings.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { type NotedRecords, noteRecords } from '../../reports/note/record-report.ts'
import { renderRecords } from '../../reports/note/terminal.ts'
import { judge } from '../../rules/index.ts'
import type { Env } from '../plumbing/env.ts'
import { ofBlock } from './field-question.ts'
import { LineInput } from './line-input.ts'
import { jobsOf, type RecordJob, recordOf } from './note-record.ts'
import { type Answers, askAll, type Question } from './question.ts'
import { recordQuestionsOf } from './record-questions.ts'
import { startQuestions } from './start-questions.ts'

interface Answered {
  starter: Starter
  /** The text of each file for the first block, its variety and the sprayer. */
  files: Record<string, string>
}

/** The answers up to where the grower left: options of `start`, and the records that `note` would write. */
interface Left {
  left: ReadonlyMap<string, string>
  jobs: readonly RecordJob[]
}

interface Known extends Starter {
  folder: string
  asOf: string
  /** Options that were typed. */
  typed: ReadonlySet<string>
}

/**
 * Asks the questions of `start` that no option answers, then those about the first block, and shows the files before
 * anything is written. `<` goes back one question, as far as the first.
 */
export async function askStart(
  known: Known,
  { err, columns }: Pick<Env, 'err' | 'columns'>,
  style: Style,
): Promise<Answered | Left> {
  const screen = { input: new LineInput(), say: err, columns }
  try {
    const { answers, left } = await askAll((so) => questionsOf(so, known, style), screen)
    const said = saidBy(answers)
    if (left || said.get('write') !== 'y') return { left: said, jobs: jobsSoFar(answers, known) }
    const records = recordsOf(answers, known)?.records ?? []
    return {
      starter: starterOf(answers, known),
      files: Object.fromEntries(records.map(({ file, text }) => [file, text])),
    }
  } finally {
    screen.input.close()
  }
}

const saidBy = (answers: Answers): ReadonlyMap<string, string> =>
  new Map([...answers.values()].flat().map(({ option, text }) => [option, text]))

function starterOf(answers: Answers, known: Known): Starter {
  const said = saidBy(answers)
  const number = (option: string) => (said.has(option) ? Number(said.get(option)) : null)
  return {
    name: said.get('name') ?? known.name,
    latitude: number('latitude') ?? known.latitude,
    longitude: number('longitude') ?? known.longitude,
    timezone: known.timezone,
    units: (said.get('units') as Starter['units'] | undefined) ?? known.units,
  }
}

function questionsOf(answers: Answers, known: Known, style: Style): Question[] {
  return [
    ...startQuestions({ ...known, units: starterOf(answers, known).units }),
    ...blockQuestions(answers, known),
    lastLook(answers, known, style),
  ]
}

/** The questions about the first block, where one was named. */
function blockQuestions(answers: Answers, known: Known): Question[] {
  const name = answers.get('block')?.[0]?.text
  if (name === undefined) return []
  const typed = new Map([['name', [name]]])
  const asking = { ...inputOf(answers, known), kind: 'blocks' as const, typed }
  return recordQuestionsOf(asking, answers).map((question) => ({
    ...question,
    ask: ofBlock(question.ask, { name }),
  }))
}

const inputOf = (answers: Answers, known: Known) => ({
  ledger: inMemory(starterFiles(starterOf(answers, known))),
  asOf: known.asOf,
})

/** The sprayer and the first block, as far as they were answered. */
function jobsSoFar(answers: Answers, known: Known): RecordJob[] {
  const said = saidBy(answers)
  const [block, sprayer, tank] = ['block', 'sprayer', 'tank'].map((option) => said.get(option))
  const jobs: RecordJob[] = []
  if (sprayer !== undefined && tank !== undefined)
    jobs.push({
      kind: 'sprayers',
      typed: new Map([
        ['name', [sprayer]],
        ['tank', [tank]],
      ]),
    })
  if (block === undefined) return jobs
  const parts = blockQuestions(answers, known).flatMap(({ key }) => answers.get(key) ?? [])
  return [...jobs, ...jobsOf({ kind: 'blocks', typed: new Map([['name', [block]]]) }, parts)]
}

/** The records with the text of their files; null where there are none. */
function recordsOf(answers: Answers, known: Known): NotedRecords | null {
  const jobs = jobsSoFar(answers, known)
  if (jobs.length === 0) return null
  const input = inputOf(answers, known)
  return noteRecords(
    { ...input, season: 0, blocks: [] },
    jobs.map((job) => recordOf(job, input)),
  )
}

/** Shows the files before they are written, and asks whether to write them. */
function lastLook(answers: Answers, known: Known, style: Style): Question {
  const noted = () => recordsOf(answers, known)
  return {
    key: 'write',
    ask: 'Write it? Type y or n.',
    why: 'Nothing is written before you say so. Type < to go back and change an answer.',
    preset: 'y',
    none: 'n',
    shows: () => {
      const records = noted()
      return `${siteLines(answers, known, style)}${records ? `\n${renderRecords(records, style)}` : ''}`
    },
    read: (text) => {
      const yes = /^(?:y|yes|ok)$/i.test(text)
      if (!yes && !/^n$/i.test(text)) return { fault: 'Type y for yes or n for no.' }
      if (yes && (noted()?.errors ?? 0) > 0)
        return { fault: 'Correct what is wrong first: type < to go back, or n to stop.' }
      return { parts: [{ option: 'write', text: yes ? 'y' : 'n' }] }
    },
  }
}

/** The text of `vineyard.yaml` without its comments, and the findings about it. */
function siteLines(answers: Answers, known: Known, style: Style): string {
  const text = starterFiles(starterOf(answers, known))['vineyard.yaml']!
  const lines = text.split('\n')
  const said = lines.flatMap((line) =>
    line === '' || line.startsWith('#') ? [] : `  ${safe(line.split('        #')[0]!.trimEnd())}\n`,
  )
  const { ledger, asOf } = inputOf(answers, known)
  const found = judge({ ledger, asOf, seasons: new Set() }).filter(({ file }) => file === 'vineyard.yaml')
  const findings = renderFindings(found, ({ line }) => lines[line - 1] ?? null, style)
  return `Not written yet: vineyard.yaml\n\n${said.join('')}${findings === '' ? '' : `\n${findings}`}`
}
