import type { Ledger } from '../../ledger/read/ledger.ts'
import { addDays, type IsoDate } from '../../records/date.ts'
import { spokenDate } from '../../records/spoken-date.ts'
import { siteWay } from '../../records/typed/site-way.ts'
import { readWeatherDays } from '../../reports/note/read-weather.ts'
import { saidFault } from './field-question.ts'
import type { Part, Question } from './question.ts'

interface About {
  ledger: Ledger
  asOf: IsoDate
  answers: ReadonlyMap<string, readonly Part[]>
}

const WEEK = /^(?:the |this |last |past )?week$|^(?:the )?(?:last |past )?(?:7|seven) days$/i
const DAYS = 7

/**
 * The questions about a day of weather. The first also takes `week`: then one line is asked for each of the last seven
 * days that has no record.
 */
export function withWeek(questions: readonly Question[], about: About): Question[] {
  const date = questions.find(({ key }) => key === 'date')
  if (!date) return [...questions]
  const open = openDays(about)
  const first: Question = {
    ...date,
    ask: `${date.ask} Type week for the last seven days.`,
    read(text) {
      if (!WEEK.test(text.trim())) return date.read(text)
      if (open.length > 0) return { parts: [{ option: 'week', text: 'week' }] }
      return { fault: 'The last seven days are recorded already. Type another day.' }
    },
  }
  const isWeek = about.answers.get('date')?.some(({ option }) => option === 'week')
  return isWeek
    ? [first, ...open.map((day) => dayQuestion(day, about))]
    : [first, ...questions.filter((one) => one !== date)]
}

/** The days of the last seven that have no weather recorded by hand, oldest first. */
function openDays({ ledger, asOf }: About): IsoDate[] {
  const known = new Set(ledger.weather.map(({ date }) => date))
  return Array.from({ length: DAYS }, (_, at) => addDays(asOf, at + 1 - DAYS)).filter(
    (day) => !known.has(day),
  )
}

function dayQuestion(day: IsoDate, { ledger, asOf }: About): Question {
  const way = siteWay(ledger.vineyard)
  const [like, degree, depth] = way.units === 'metric' ? ['8 21 4', '°C', 'mm'] : ['46 70 0.2', '°F', 'in']
  return {
    key: `day:${day}`,
    ask: `${spokenDate(day)}: lowest, highest, rain? For example ${like}.`,
    why: `Lowest and highest in ${degree}, rain in ${depth}. Type x for what you did not read: it stays unknown, and so does a day that you leave out.`,
    optional: true,
    read(text) {
      const parts = text.trim().replace(/(?<=\d)\s+(?=(?:\u00b0?\s?[cf]|mm|in)\b)/gi, '')
      const said = `${day} ${parts.replace(/(?<![\w.])(?:x|-)(?![\w.])/gi, '?')}`
      const { fault } = readWeatherDays([said], { ...way, today: asOf })
      if (!fault) return { parts: [{ option: 'day', text: said }] }
      if (!fault.message.includes('not a day of weather')) return { fault: saidFault(fault) }
      return { fault: `Type lowest, highest and rain, like ${like}; x for what you did not read.` }
    },
  }
}
