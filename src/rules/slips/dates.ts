import type { Placed } from '../../ledger/read/source.ts'
import { ENTRY_CALLED, SEASON_KINDS } from '../../records/kinds.ts'
import { longDate } from '../../records/spoken-date.ts'
import { findingAt, type Rule } from '../rule.ts'

/** An entry dated after the day of the report cannot have happened yet. */
export const futureDate: Rule = {
  name: 'future-date',
  what: 'An entry, a stock count or a calibration is dated after the day of the report (`--as-of`, else today). Only what has happened belongs in the records. Reports leave the entry out until that day.',
  source: 'own rule: the record is of things done',
  basis: 'own',
  check({ ledger, asOf, seasons }) {
    const entries = SEASON_KINDS.flatMap((kind) =>
      ledger[kind]
        .filter((entry) => seasons.has(entry.season) && entry.date > asOf)
        .map((entry) =>
          findingAt(entry, ['date'], {
            message: `this ${ENTRY_CALLED[kind]} is dated ${longDate(entry.date)}, in the future on ${longDate(asOf)}`,
            help: 'correct the date, or record it when it is done',
          }),
        ),
    )
    const told = (record: Placed<object>, key: string, date: string | undefined, what: string) =>
      date === undefined || date <= asOf
        ? []
        : findingAt(record, [key], {
            message: `${what} ${longDate(date)}, in the future on ${longDate(asOf)}`,
            help: 'correct the date',
          })
    return [
      ...entries,
      ...[...ledger.products.values()].flatMap((one) =>
        told(one, 'stocked', one.stocked, 'the stock was counted on'),
      ),
      ...[...ledger.sprayers.values()].flatMap((one) =>
        told(one, 'calibrated', one.calibrated, 'the sprayer was calibrated on'),
      ),
    ]
  },
}

const NAMED = /(?:^|\/)(\d{4}-\d{2}-\d{2})[^/]*$/

/** A file is named by the day of its entry: where the two differ, one of them is mistyped. */
export const fileNameDate: Rule = {
  name: 'file-name-date',
  what: "A file's name holds a date that no entry in it has. One of the two is mistyped, or the date was corrected and the file kept its name. Reports use the date in the file.",
  source: 'own rule: files of a season are named by date first',
  basis: 'own',
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
