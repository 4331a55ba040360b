import { upperFirst } from '../../facts/sentences.ts'
import type { Recognised } from '../../ledger/import/recognise.ts'
import type { Answer, Said } from '../../ledger/import/recognised.ts'
import { safeLine } from '../../render/safe.ts'
import { wrap } from '../../render/text.ts'
import { choosing } from './choices.ts'
import { askQuestion, type Question, type Screen } from './question.ts'

/** Something that an export leaves open; `needed` where the import stops without an answer. */
interface Open {
  ask: string
  answers: readonly Answer[]
  needed: boolean
  preset?: string | undefined
}

/**
 * Asks on a terminal for what an export leaves open, one question at a time. Each answer could also be an option.
 * @param read reads the export with the answers so far; null where it can't be read
 * @returns options and answers together, or null where the grower left
 */
export async function askWeather(
  said: Said,
  read: (said: Said) => Recognised | null | undefined,
  screen: Screen,
): Promise<Said | null> {
  const asked = new Set<string>()
  let all = said
  for (;;) {
    const open = openIn(read(all)).find(({ ask }) => !asked.has(ask))
    if (!open) break
    asked.add(open.ask)
    const answer = await askQuestion(questionOf(open), screen)
    if (answer.came === 'left') return null
    const named = answer.came === 'answer' ? answer.parts[0]?.text : undefined
    const chosen = open.answers.find(({ shown }) => shown === named)
    if (chosen) all = withAnswer(all, chosen)
  }
  if (all !== said)
    screen.say(`\n${wrap(`To say it at once next time: ${optionsOf(all)}`, screen.columns)}\n\n`)
  return all
}

function openIn(recognised: Recognised | null | undefined): Open[] {
  if (!recognised) return []
  const { questions, open } = recognised
  // An error that no answer can settle stops the import, and the caller reports it.
  if (
    questions.some(({ level, answers, name }) => level === 'error' && !answers && name !== 'unknown-column')
  )
    return []
  const others = questions.flatMap(({ level, message, answers = [] }): Open[] => {
    const ask = `${upperFirst(message).replace(', so it is left out', '')}. Which is it?`
    return answers.length > 0 ? [{ ask: safeLine(ask), answers, needed: level === 'error' }] : []
  })
  const columns = open.map(({ name, figures, may, likely }): Open => {
    const first = figures.map(safeLine).join(', ')
    return {
      ask: `What does column \`${safeLine(name)}\` hold (${first}${figures.length > 3 ? ', …' : ''})?`,
      answers: may.map((key) => ({ shown: key, columns: { [key]: name } })),
      needed: false,
      preset: likely ?? undefined,
    }
  })
  return [...others, ...columns]
}

const questionOf = ({ ask, answers, needed, preset }: Open): Question => ({
  key: ask,
  ask,
  why: 'Nothing is written yet: you see first how it is read.',
  ...choosing(
    'answer',
    answers.map(({ shown }) => ({ id: shown, name: shown })),
  ),
  optional: !needed,
  preset,
})

function withAnswer(
  { how = {}, rain }: Said,
  { columns, units, decimal, dates, rain: counts }: Answer,
): Said {
  return {
    how: {
      ...how,
      ...(columns && { columns: { ...how.columns, ...columns } }),
      ...(units && { units: { ...how.units, ...units } }),
      ...(decimal && { decimal }),
      ...(dates && { dates }),
    },
    rain: counts ?? rain,
  }
}

function optionsOf({ how = {}, rain }: Said): string {
  const list = (pairs: Record<string, string> = {}) =>
    Object.entries(pairs)
      .map(([key, value]) => `${key}=${safeLine(value)}`)
      .join(', ')
  return [
    ...(how.columns ? [`--columns '${list(how.columns)}'`] : []),
    ...(how.units ? [`--column-units '${list(how.units)}'`] : []),
    ...(how.decimal ? [`--decimal ${how.decimal}`] : []),
    ...(how.dates ? [`--dates ${how.dates}`] : []),
    ...(rain ? [`--rain ${rain}`] : []),
  ].join(' ')
}
