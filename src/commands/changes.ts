import type { Report } from '../facts/report.ts'
import { differs, filesOfTrees } from '../ledger/git/files.ts'
import type { GitObjects } from '../ledger/git/objects.ts'
import { inRepository, lastCommitBefore, type Revision, readRevisions } from '../ledger/git/repository.ts'
import { NoHistory } from '../ledger/git/run.ts'
import { commitTimes } from '../ledger/git/times.ts'
import { treesOf } from '../ledger/git/trees.ts'
import type { LedgerFiles, Shared } from '../ledger/read/files.ts'
import { openLedger } from '../ledger/read/open.ts'
import { readSite } from '../ledger/read/site.ts'
import type { IsoDate } from '../records/date.ts'
import { instantOf, wallClock } from '../records/zone.ts'
import { type ChangesData, type LedgerState, changes as report } from '../reports/changes/report.ts'
import { changesMessage, renderChanges } from '../reports/changes/terminal.ts'
import type { Call } from './plumbing/call.ts'
import { type CommandBody, optionsOf } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'

export const changes: CommandBody = {
  arguments: [
    { what: 'a commit, branch or tag, else the last commit' },
    { what: 'another one, else the files as they stand' },
  ],
  options: optionsOf([
    ['--since DATE', 'from the last commit before this day'],
    ['--message', 'as a message for the commit'],
  ]),
  examples: [
    ['rowbook changes', 'what is not committed yet'],
    ['rowbook changes HEAD~3 HEAD', 'between two commits'],
    ['git commit -a -m "$(rowbook changes --message)"', 'let rowbook write the message'],
  ],
  async run(call) {
    if (call.json && call.flag('message')) throw new UsageError('--json and --message go apart', 'give one')
    const { root, files } = call.place()
    const place = { root, variables: call.env.variables }
    const result = await inRepository(place, async (objects) => {
      const zone = readSite(root, files).timezone ?? 'UTC'
      return compared(call, objects, { ends: await endsOf(call, objects, zone), zone })
    })
    const broken = result.data.unread.some(({ in: side }) => side === 'to')
    return call.print(result, call.flag('message') ? changesMessage : renderChanges, {
      status: broken ? 1 : 0,
    })
  },
}

type End = Revision | null | 'tree'

interface Ends {
  /** null where nothing was committed before. */
  from: Revision | null
  to: End
  head: Revision | null
}

/** The two ends as typed. */
async function endsOf(call: Call, objects: GitObjects, zone: string): Promise<Ends> {
  const since = call.date('since')
  const typed = call.args.length === 1 ? call.args[0]!.split('..') : [...call.args]
  if (typed.length > 2) throw new UsageError('changes takes two revisions at most', 'write `changes FROM TO`')
  if (since !== undefined && typed.length > 1)
    throw new UsageError('--since and FROM both say where to begin', 'give one of them')
  if (since !== undefined) {
    const commit = await lastCommitBefore(objects, Math.floor(instantOf(since, 0, zone) / 1000) - 1)
    const names = ['HEAD', typed[0] || 'HEAD', ...(commit ? [commit] : [])]
    const [head = null, end = null, start = null] = await readRevisions(objects, names)
    return { from: start, to: typed[0] ? end : 'tree', head }
  }
  const [head = null, from = head, to = 'tree'] = await readRevisions(
    objects,
    ['HEAD', ...typed].map((name) => name || 'HEAD'),
  )
  return { from, to, head }
}

/** The report, from what git and the disk hold. */
async function compared(
  call: Call,
  objects: GitObjects,
  { ends, zone }: { ends: Ends; zone: string },
): Promise<Report<ChangesData>> {
  const { root, files, asOf, season } = call.place()
  const { from, to, head } = ends
  const last = to === 'tree' ? head : to
  const asked = treesOf(objects.place, [from, last])
  const [trees, times, [old, committed]] = await Promise.all([
    asked,
    last && commitTimes(objects.place, { from, to: last, trees: asked }),
    asked.then((both) => filesOfTrees(objects, to === 'tree' ? [both[0]!] : both)),
  ])
  const lastly = trees[1]!
  const shared: Shared = { records: new Map(), nodes: new Map(), weather: new Map() }
  const { cache } = files
  const open = (side: LedgerFiles) =>
    side.has('vineyard.yaml') ? openLedger(root, { seasons: 'all' }, { ...side, shared }) : null
  const after = open(committed ? { ...committed, cache } : files)
  // Only the later state's records are cached: the next command most likely needs those.
  const before = open({ ...old!, cache: cache && onlyRead(cache) })
  if (!after) throw new NoHistory('there is no ledger in that revision', 'name another one')
  const dayOf = (time: number): IsoDate => wallClock(time * 1000, zone).date
  const textOf = (file: string) => (files.has(file) ? (files.read(file).text ?? null) : null)
  return report({
    before: { state: stateOf(from, dayOf), ledger: before },
    after: { state: stateOf(to, dayOf), ledger: after },
    asOf,
    season,
    changedOn: (file) => {
      const time = times?.get(file)
      if (last === null || last.commit === from?.commit) return asOf
      const isStanding = to === 'tree' && differs(lastly, file, textOf(file))
      if (isStanding && (lastly.has(file) || time === undefined)) return asOf
      return dayOf(time ?? last.time)
    },
  })
}

type Cache = NonNullable<LedgerFiles['cache']>

const onlyRead = (cache: Cache): Cache => ({
  find: (file, text, part) => cache.find(file, text, part),
  keep: () => {},
})

function stateOf(end: End, dayOf: (time: number) => IsoDate): LedgerState {
  if (end !== null && end !== 'tree')
    return { name: end.name, commit: end.commit, date: dayOf(end.time), subject: end.subject }
  const name = end === null ? 'nothing yet' : 'the files as they stand'
  return { name, commit: null, date: null, subject: null }
}
