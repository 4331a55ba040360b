import type { LedgerFiles, Shared } from '../ledger/files.ts'
import type { Repository, Revision } from '../ledger/git.ts'
import type { IsoDate } from '../records/date.ts'
import type { BookState } from '../reports/changes.ts'
import { type Call, UsageError } from './call.ts'
import type { Command } from './command.ts'

export const changes: Command = {
  name: 'changes',
  summary: 'say what changed in the book between two revisions in git, and what that does',
  arguments: [
    { form: '[FROM]', what: 'a commit, branch or tag, else the last commit' },
    { form: '[TO]', what: 'another one, else the files as they stand' },
  ],
  options: [
    { flags: '--since DATE', what: 'from the last commit before this day' },
    { flags: '--message', what: 'as a message for the commit' },
  ],
  examples: [
    ['rowbook changes', 'what is not committed yet'],
    ['rowbook changes HEAD~3 HEAD', 'between two commits'],
    ['git commit -a -m "$(rowbook changes --message)"', 'let the book write the message'],
  ],
  async run(call) {
    if (call.json && call.flag('message')) throw new UsageError('--json and --message go apart', 'give one')
    const [git, { findLedger }, { changes: report }] = await Promise.all([
      import('../ledger/git.ts'),
      import('../ledger/find.ts'),
      import('../reports/changes.ts'),
    ])
    const root = findLedger(call.env.cwd, call.text('ledger'))
    const { chooseSeason } = await import('./choose-season.ts')
    const typed = { asOf: call.date('as-of'), season: call.number('season', 1900, 2200), env: call.env }
    const { asOf, season } = chooseSeason(root, typed)
    const repository = git.openRepository(root, call.env.variables)
    const { readSite } = await import('../ledger/site.ts')
    const zone = readSite(root).timezone ?? 'UTC'
    const [from, to] = await revisions(call, repository, zone)
    const shared: Shared = { records: new Map(), nodes: new Map(), weather: new Map() }
    const before = await openState(repository, { revision: from, shared })
    const after = await openState(repository, { revision: to, shared })
    if (!after) throw new git.NoHistory('there is no ledger in that revision', 'name another one')
    const { wallClock } = await import('../records/zone.ts')
    const dayOf = (time: number): IsoDate => wallClock(time * 1000, zone).date
    const { changedOn } = await changeDays(repository, { from, to, asOf, dayOf })
    const result = report({
      before: { state: stateOf(from, dayOf), ledger: before },
      after: { state: stateOf(to, dayOf), ledger: after },
      asOf,
      season,
      changedOn,
    })
    const { renderChanges, changesMessage } = await import('../render/changes.ts')
    const broken = result.data.unread.some(({ in: side }) => side === 'to')
    return call.print(result, call.flag('message') ? changesMessage : renderChanges, broken ? 1 : 0)
  },
}

type End = Revision | null | 'tree'

/** The two ends as typed; null where nothing was committed before. */
async function revisions(call: Call, repository: Repository, zone: string): Promise<[Revision | null, End]> {
  const { lastCommitBefore, readRevisions } = await import('../ledger/git.ts')
  const since = call.date('since')
  const typed = call.args.length === 1 ? call.args[0]!.split('..') : [...call.args]
  if (typed.length > 2) throw new UsageError('changes takes two revisions at most', 'write `changes FROM TO`')
  if (since !== undefined && typed.length > 1)
    throw new UsageError('--since and FROM both say where to begin', 'give one of them')
  if (since !== undefined) {
    const { instantOf } = await import('../records/zone.ts')
    const commit = lastCommitBefore(repository, Math.floor(instantOf(since, 0, zone) / 1000) - 1)
    const [end, start] = readRevisions(repository, [typed[0] || 'HEAD', ...(commit ? [commit] : [])])
    return [start ?? null, typed[0] ? (end ?? null) : 'tree']
  }
  const names = [typed[0] || 'HEAD', ...(typed.length > 1 ? [typed[1] || 'HEAD'] : [])]
  const [from = null, to] = readRevisions(repository, names)
  return [from, names.length > 1 ? (to ?? null) : 'tree']
}

async function openState(repository: Repository, { revision, shared }: { revision: End; shared: Shared }) {
  const [{ openLedger }, { filesOnDisk }, { filesAtRevision }] = await Promise.all([
    import('../ledger/open.ts'),
    import('../ledger/files.ts'),
    import('../ledger/git-files.ts'),
  ])
  const files: LedgerFiles =
    revision === 'tree' ? filesOnDisk(repository.root) : filesAtRevision(repository, revision)
  if (!files.has('vineyard.yaml')) return null
  return openLedger(repository.root, { seasons: 'all' }, { ...files, shared })
}

function stateOf(end: End, dayOf: (time: number) => IsoDate): BookState {
  if (end === 'tree') return { name: 'the files as they stand', commit: null, date: null, subject: null }
  if (end === null) return { name: 'nothing yet', commit: null, date: null, subject: null }
  return { name: end.name, commit: end.commit, date: dayOf(end.time), subject: end.subject }
}

/** When a file was last changed: by its last commit in the span, or on the day of looking where it isn't committed. */
async function changeDays(
  repository: Repository,
  {
    from,
    to,
    asOf,
    dayOf,
  }: { from: Revision | null; to: End; asOf: IsoDate; dayOf: (time: number) => IsoDate },
): Promise<{ changedOn: (file: string) => IsoDate }> {
  const [{ commitTimes, readRevisions }, { differs, treeOf }, { readText }] = await Promise.all([
    import('../ledger/git.ts'),
    import('../ledger/git-files.ts'),
    import('../ledger/read-file.ts'),
  ])
  const head = to === 'tree' ? (readRevisions(repository, ['HEAD'])[0] ?? null) : to
  if (head === null || head.commit === from?.commit) return { changedOn: () => asOf }
  const times = commitTimes(repository, from, head)
  const tree = to === 'tree' ? treeOf(repository, head) : null
  const changedOn = (file: string): IsoDate => {
    const standing = tree && differs(tree, file, readText(repository.root, file).text ?? null)
    const time = times.get(file)
    if (standing && (tree.has(file) || time === undefined)) return asOf
    return time === undefined ? dayOf(head.time) : dayOf(time)
  }
  return { changedOn }
}
