import { mostSprayed } from '../../agronomy/spraying/most-sprayed.ts'
import { exceeds } from '../../agronomy/statistics/exceeds.ts'
import { judgedApplications } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import type { Application } from '../../facts/spraying/applications.ts'
import type { SprayEntry } from '../../ledger/read/ledger.ts'
import { findingAt, mention, type Rule } from '../rule.ts'

/** Tolerance for errors in flow and times. */
const SLACK = 1.1

/** More water than the sprayer could have put out in the time written. */
export const impossibleOutput: Rule = {
  name: 'impossible-output',
  about: {
    what: 'The spray used more water than the nozzles can deliver in the recorded time, even without filling and turning.',
    limits: 'The most possible is the flow of the sprayer x the minutes recorded, plus a tenth.',
    source: 'own rule; flow x time by the units alone',
    basis: 'own',
  },
  check(book) {
    const mine = judgedApplications(book)
    const bySpray = new Map<SprayEntry, number | null>()
    const lists = new Map<SprayEntry, Application[]>()
    for (const one of mine) lists.set(one.spray, [...(lists.get(one.spray) ?? []), one])
    for (const [spray, list] of lists) {
      const blocks = new Map(
        list.map(({ block, area, waterPerHa }) => [
          block.id,
          area === null || waterPerHa === null ? null : area * waterPerHa,
        ]),
      )
      const litres = [...blocks.values()]
      bySpray.set(spray, litres.includes(null) ? null : litres.reduce((sum: number, each) => sum + each!, 0))
    }
    return [...bySpray].flatMap(([spray, litres]) => {
      const sprayer = spray.sprayer === undefined ? undefined : book.ledger.sprayers.get(spray.sprayer)
      const end = spray.time?.end
      // A mix is judged as a spray without duration.
      if (litres === null || sprayer?.flow === undefined || end == null || end <= spray.time!.start) return []
      const minutes = end - spray.time!.start
      const most = mostSprayed({ flow: sprayer.flow, minutes })
      if (!exceeds(litres, most * SLACK)) return []
      return findingAt(spray, ['water'], {
        message: `${say(litres, 'L')} of spray, but ${sprayer.id} applies ${say(most, 'L')} in ${minutes} min (${mention(sprayer, ['flow'])})`,
        help: 'check water, rows, times and the flow of the sprayer',
      })
    })
  },
}
