import { ENTRY_CALLED, SEASON_KINDS } from '../../records/kinds.ts'
import { findingAt, type Rule } from '../rule.ts'

const NAMED = /(?:^|\/)(\d{4}-\d{2}-\d{2})[^/]*$/

/** A file is named by the day of its entry: where the two differ, one of them is mistyped. */
export const fileNameDate: Rule = {
  name: 'file-name-date',
  about: {
    what: "A file's name holds a date that no entry in it has. One of the two is mistyped, or the date was corrected and the file kept its name. Reports use the date in the file.",
    source: 'own rule: files of a season are named by date first',
    basis: 'own',
  },
  check({ ledger, seasons }) {
    return SEASON_KINDS.flatMap((kind) => {
      const entries = ledger[kind].filter(({ season }) => seasons.has(season))
      const days = new Set(entries.map(({ source, date }) => `${source.at.file} ${date}`))
      const told = new Set<string>()
      return entries.flatMap((entry) => {
        const { file } = entry.source.at
        const named = NAMED.exec(file)?.[1]
        if (named === undefined || days.has(`${file} ${named}`) || told.has(file)) return []
        told.add(file)
        const message = `the file is named ${named}, this ${ENTRY_CALLED[kind]} is dated ${entry.date}`
        const help = 'correct the date, or rename the file'
        return findingAt(entry, ['date'], { level: 'hint', message, help })
      })
    })
  },
}
