import { inMemory } from '../../ledger/write/in-memory.ts'
import { type Starter, starterFiles } from '../../ledger/write/starter-files.ts'
import { addAll } from '../../records/add-all.ts'
import { renderFindings } from '../../render/findings.ts'
import { safe } from '../../render/safe.ts'
import type { Style } from '../../render/style.ts'
import { noteRecords } from '../../reports/note/record-report.ts'
import { renderRecords } from '../../reports/note/terminal.ts'
import { judge } from '../../rules/index.ts'
import type { Env } from '../plumbing/env.ts'
import { LineInput } from './line-input.ts'
import { jobsOf, type RecordJob, recordOf } from './note-record.ts'
import { type Answers, askAll, type Question } from './question.ts'
import { recordQuestionsOf } from './record-questions.ts'
import { startQuestions } from './start-questions.ts'
import { withParts } from './typed-fields.ts'

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
  const questionsOf = (answers: Answers): Question[] => {
    const so = soFar(answers, known)
    return [...startQuestions({ ...known, units: so.starter.units }), ...so.ofBlock, lastLook(so, style)]
  }
  try {
    const { answers, left } = await askAll(questionsOf, screen)
    const { said, starter, jobs, noted } = soFar(answers, known)
    if (left || said.get('write') !== 'y') return { left: said, jobs }
    const records = noted()?.records ?? []
    return { starter, files: Object.fromEntries(records.map(({ file, text }) => [file, text])) }
  } finally {
    screen.input.close()
  }
}

type SoFar = ReturnType<typeof soFar>

/** What the answers so far say: of the site, of the first block, and of the sprayer. */
function soFar(answers: Answers, known: Known) {
  const said = new Map([...answers.values()].flat().map(({ option, text }) => [option, text]))
  const degrees = (option: 'latitude' | 'longitude') =>
    said.has(option) ? Number(said.get(option)) : known[option]
  const starter: Starter = {
    name: said.get('name') ?? known.name,
    latitude: degrees('latitude'),
    longitude: degrees('longitude'),
    timezone: known.timezone,
    units: (said.get('units') as Starter['units'] | undefined) ?? known.units,
  }
  const input = { ledger: inMemory(starterFiles(starter)), asOf: known.asOf }
  const [name, sprayer, tank] = ['block', 'sprayer', 'tank'].map((option) => said.get(option))
  const block: RecordJob = { kind: 'blocks', typed: new Map([['name', [name ?? '']]]) }
  const asked = name === undefined ? [] : recordQuestionsOf({ ...input, ...block }, answers)
  const jobs: RecordJob[] = []
  if (sprayer !== undefined && tank !== undefined) {
    const typed = withParts(new Map([['name', [sprayer]]]), [{ option: 'tank', text: tank }])
    jobs.push({ kind: 'sprayers', typed })
  }
  if (name !== undefined) {
    const parts = asked.flatMap(({ key }) => answers.get(key) ?? [])
    addAll(jobs, jobsOf(block, parts))
  }
  /** The records with the text of their files; null where there are none. */
  const noted = () =>
    jobs.length === 0
      ? null
      : noteRecords(
          { ...input, season: 0, blocks: [] },
          jobs.map((job) => recordOf(job, input)),
        )
  const ofBlock = asked.map((question) => ({ ...question, ask: `${name}: ${question.ask}` }))
  return { said, starter, input, ofBlock, jobs, noted }
}

/** Shows the files before they are written, and asks whether to write them. */
function lastLook(so: SoFar, style: Style): Question {
  return {
    key: 'write',
    ask: 'Write it? Type y or n.',
    why: 'Nothing is written before you say so. Type < to go back and change an answer.',
    preset: 'y',
    none: 'n',
    shows: () => {
      const records = so.noted()
      return `${siteLines(so, style)}${records ? `\n${renderRecords(records, style)}` : ''}`
    },
    read: (text) => {
      const yes = /^(?:y|yes|ok)$/i.test(text)
      if (!yes && !/^n$/i.test(text)) return { fault: 'Type y for yes or n for no.' }
      if (yes && (so.noted()?.errors ?? 0) > 0)
        return { fault: 'Correct what is wrong first: type < to go back, or n to stop.' }
      return { parts: [{ option: 'write', text: yes ? 'y' : 'n' }] }
    },
  }
}

/** The text of `vineyard.yaml` without its comments, and the findings about it. */
function siteLines({ starter, input }: SoFar, style: Style): string {
  const lines = starterFiles(starter)['vineyard.yaml']!.split('\n')
  const said = lines
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => `  ${safe(line.split('        #')[0]!.trimEnd())}\n`)
  const found = judge({ ...input, seasons: new Set() }).filter(({ file }) => file === 'vineyard.yaml')
  const findings = renderFindings(found, ({ line }) => lines[line - 1] ?? null, style)
  return `Not written yet: vineyard.yaml\n\n${said.join('')}${findings === '' ? '' : `\n${findings}`}`
}
