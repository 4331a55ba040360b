import { execFileSync } from 'node:child_process'
import { chmodSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { beforeEach, describe, expect, test } from 'vitest'
import { filesOfTrees } from '../../../src/ledger/git/files.ts'
import { GitObjects } from '../../../src/ledger/git/objects.ts'
import { inRepository, readRevisions } from '../../../src/ledger/git/repository.ts'
import { NoHistory } from '../../../src/ledger/git/run.ts'
import { commitTimes } from '../../../src/ledger/git/times.ts'
import { treesOf } from '../../../src/ledger/git/trees.ts'
import { GitBook, spray } from '../git-book.ts'
import { makeLedger, SITE } from '../make.ts'

const A = 'seasons/2026/sprays/a.yaml'
const placeOf = (root: string, path = process.env.PATH) => ({ root, variables: { PATH: path, HOME: root } })

/** The trees of some revisions, as `rowbook` reads them. */
const treesAt = (root: string, names: string[]) =>
  inRepository(placeOf(root), async (objects) => treesOf(objects.place, await readRevisions(objects, names)))

/** What git itself lists of a revision of the folder. */
const listed = (root: string, name: string) =>
  execFileSync('git', ['ls-tree', '-r', '-z', name], { cwd: root, encoding: 'utf8' })
    .split('\0')
    .filter((line) => line !== '')
    .map((line) => {
      const [, mode, object, file] = /^(\d+) \w+ (\w+)\t([\s\S]+)$/.exec(line)!
      return [file, { mode, object }]
    })

let book: GitBook
beforeEach(() => {
  book = new GitBook().write({ [A]: spray('2026-06-14', 'upper') })
})

describe('the files of a revision are those that git lists, in its order', () => {
  test('plain files, programs, links and submodules, and names that are not ASCII or not for a shell', async () => {
    const odd = [
      'blocks/Höhe.yaml',
      'blocks/葡萄 \t"x\'.yaml',
      'a-b/c.txt',
      'a/b.txt',
      'a.txt',
      'line\nend.yaml',
    ]
    book.write(Object.fromEntries(odd.map((name) => [name, `${name}\n`])))
    symlinkSync('vineyard.yaml', join(book.root, 'link.yaml'))
    chmodSync(join(book.root, 'a.txt'), 0o755)
    book.commit('The book')
    book.git('update-index', '--add', '--cacheinfo', `160000,${'1'.repeat(40)},sub/module`)
    book.git('commit', '-q', '-m', 'A submodule')
    const [tree] = await treesAt(book.root, ['HEAD'])
    expect([...tree!]).toEqual(listed(book.root, 'HEAD'))
    expect([...tree!.keys()]).toEqual(expect.arrayContaining(odd))
    const modes = ['link.yaml', 'sub/module', 'a.txt', A].map((file) => tree!.get(file)!.mode)
    expect(modes).toEqual(['120000', '160000', '100755', '100644'])
    const names = await inRepository(placeOf(book.root), async (objects) => {
      const [files] = await filesOfTrees(objects, [tree!])
      return ['link.yaml', 'sub/module', 'no.yaml', 'blocks/Höhe.yaml'].map((file) => files!.read(file))
    })
    expect(names).toMatchObject([
      { finding: { name: 'not-a-plain-file' } },
      { finding: { name: 'not-a-plain-file' } },
      { finding: { name: 'unreadable-file' } },
      { text: 'blocks/Höhe.yaml\n' },
    ])
  })

  test('a folder of a larger repository: its own files only; none where the folder did not exist or was a file', async () => {
    const inside = new GitBook('farms/nell’s rows')
    inside.git('commit', '-q', '--allow-empty', '-m', 'Before')
    inside.git('update-index', '--add', '--cacheinfo', `100644,${blob(inside, 'x')},farms`)
    inside.git('commit', '-q', '-m', 'A file of its name')
    inside.git('rm', '-q', '--cached', 'farms')
    writeFileSync(join(inside.top, 'other.yaml'), 'x')
    inside.commit('The book')
    const trees = await treesAt(inside.root, ['HEAD~2', 'HEAD~1', 'HEAD'])
    expect(trees.map(({ size }) => size)).toEqual([0, 0, Object.keys(SITE).length])
    expect([...trees[2]!]).toEqual(listed(inside.root, 'HEAD'))
  })

  test('a repository that hashes by SHA-256', async () => {
    const long = new GitBook()
    execFileSync('rm', ['-r', join(long.top, '.git')])
    long.git('init', '-q', '-b', 'main', '--object-format=sha256')
    long.write({ [A]: spray('2026-06-14', 'upper') }).commit('One')
    long.write({ [A]: spray('2026-06-15', 'upper') }).commit('Two')
    const texts = await inRepository(placeOf(long.root), async (objects) => {
      const trees = await treesOf(objects.place, await readRevisions(objects, ['HEAD~1', 'HEAD']))
      expect([...trees[1]!]).toEqual(listed(long.root, 'HEAD'))
      return (await filesOfTrees(objects, trees)).map((files) => files.read(A).text)
    })
    expect(texts).toEqual([spray('2026-06-14', 'upper'), spray('2026-06-15', 'upper')])
  })
})

test('folders nested in each other very many times are refused quickly, with a message', async () => {
  const hash = (type: string, input: string) =>
    execFileSync('git', ['hash-object', '-t', type, '-w', '--stdin'], {
      cwd: book.root,
      input,
      encoding: 'utf8',
    }).trim()
  const mktree = (lines: string[]) =>
    execFileSync('git', ['mktree'], {
      cwd: book.root,
      input: `${lines.join('\n')}\n`,
      encoding: 'utf8',
    }).trim()
  book.commit('The book')
  let inner = mktree([`100644 blob ${hash('blob', 'x: 1\n')}\ta.yaml`])
  for (let depth = 0; depth < 12; depth += 1)
    inner = mktree(Array.from({ length: 10 }, (_, at) => `040000 tree ${inner}\t${at}`))
  const commit = book.git('commit-tree', inner, '-m', 'A bomb').trim()
  await expect(treesAt(book.root, [commit])).rejects.toThrow(/holds over 1000000 files/)
})

test('a folder or file missing from a damaged repository is reported, and not taken for one that never existed', async () => {
  const inside = new GitBook('rows')
  inside.write({ [A]: spray('2026-06-14', 'upper') }).commit('The book')
  // The ledger in the folder itself need not be in git.
  inside.write({ [A]: spray('2026-06-15', 'upper') })
  const lose = (name: string) => {
    const id = inside.git('rev-parse', name).trim()
    execFileSync('rm', ['-f', join(inside.top, '.git/objects', id.slice(0, 2), id.slice(2))])
  }
  const read = () =>
    inRepository(placeOf(inside.root), async (objects) =>
      filesOfTrees(objects, await treesOf(objects.place, await readRevisions(objects, ['HEAD']))),
    )
  await read()
  for (const name of [`HEAD:rows/${A}`, 'HEAD:rows/seasons/2026', 'HEAD:rows']) {
    lose(name)
    await expect(read(), name).rejects.toThrow(NoHistory)
  }
})

test('weather is read from the folder where it is unchanged, else from git', async () => {
  const file = 'seasons/2026/weather.csv'
  const text = 'date,tmin,tmax\n2026-06-01,10,20\n'
  book.write({ [file]: text }).commit('The book')
  const read = () =>
    inRepository(placeOf(book.root), async (objects) => {
      const [files] = await filesOfTrees(
        objects,
        await treesOf(objects.place, await readRevisions(objects, ['HEAD'])),
      )
      return files!.read(file)
    })
  expect(await read()).toEqual({ text })
  for (const other of ['date\n', null]) {
    book.write({ [file]: other })
    expect(await read()).toEqual({ text })
  }
  book.write({ [file]: 'x'.repeat(9 * 1024 * 1024) }).commit('A large one')
  expect(await read()).toMatchObject({ finding: { name: 'file-too-large' } })
})

describe('times of commits', () => {
  const B = 'seasons/2026/sprays/b.yaml'
  const timesOf = (from: string | null, to: string) =>
    inRepository(placeOf(book.root), async (objects) => {
      const [end, start = null] = await readRevisions(objects, from ? [to, from] : [to])
      const trees = treesOf(objects.place, [start, end!])
      const [times] = await Promise.all([commitTimes(objects.place, { from: start, to: end!, trees }), trees])
      return times
    })

  test('they are read from the files from commit to commit, and agree with the log', async () => {
    book.commit('One', '2026-06-20T12:00:00Z')
    book.write({ [A]: spray('2026-06-15', 'upper'), [B]: spray('2026-06-15', 'lower') })
    book.commit('Two', '2026-06-21T12:00:00Z')
    book.write({ [A]: null, 'vineyard.yaml': `${SITE['vineyard.yaml']}\n` })
    book.commit('Three', '2026-06-22T12:00:00Z')
    const [first, second, third] = [20, 21, 22].map((day) => Date.UTC(2026, 5, day, 12) / 1000)
    expect(await timesOf(null, 'HEAD~2')).toEqual(new Map([...Object.keys(SITE), A].map((f) => [f, first])))
    expect(await timesOf('HEAD~2', 'HEAD~1')).toEqual(new Map([A, B].map((file) => [file, second])))
    expect(await timesOf('HEAD~1', 'HEAD')).toEqual(
      new Map([A, 'vineyard.yaml'].map((file) => [file, third])),
    )
    const both = new Map([A, 'vineyard.yaml'].map((file) => [file, third]))
    expect(await timesOf('HEAD~2', 'HEAD')).toEqual(both.set(B, second))
    expect(await timesOf('HEAD', 'HEAD')).toEqual(new Map())
  })

  test('what a merge brings in has the time of the commit on its own branch', async () => {
    book.commit('One', '2026-06-20T12:00:00Z')
    book.git('checkout', '-q', '-b', 'phone')
    book.write({ [B]: spray('2026-06-15', 'lower') }).commit('Phone', '2026-06-21T12:00:00Z')
    book.git('checkout', '-q', 'main')
    book.git('merge', '-q', '--no-ff', 'phone', '-m', 'Merge')
    expect(await timesOf('HEAD~1', 'HEAD')).toEqual(new Map([[B, Date.UTC(2026, 5, 21, 12) / 1000]]))
  })
})

describe('one git process answers many questions', () => {
  test('asked at once or in turn, each is answered in order; missing and ambiguous objects are reported', async () => {
    book.commit('The book')
    const objects = new GitObjects(placeOf(book.root))
    const [first, second] = await Promise.all([
      objects.ask(['HEAD', 'no such thing', `HEAD:${A}`]),
      objects.ask(['HEAD:./', 'HEAD^{tree}']),
    ])
    expect(first.map(({ type }) => type)).toEqual(['commit', 'missing', 'blob'])
    expect(first[2]!.content!.toString()).toBe(spray('2026-06-14', 'upper'))
    expect(second[0]).toEqual(second[1])
    expect(await objects.ask([])).toEqual([])
    const large = blob(book, 'x'.repeat(9 * 1024 * 1024))
    const [letGo, after] = await objects.ask([large, `HEAD:${A}`])
    expect(letGo).toEqual({ id: large, type: 'blob', content: null })
    expect(after).toEqual(first[2])
    objects.close()
  })

  /** Asks a `git` that answers something unexpected for two objects. */
  const asking = (script: string) => {
    const path = mkdtempSync(join(tmpdir(), 'rowbook-fake-git-'))
    writeFileSync(join(path, 'git'), `#!/bin/sh\n${script}\n`, { mode: 0o755 })
    const objects = new GitObjects(placeOf(book.root, `${path}:${process.env.PATH}`))
    return objects.ask(['HEAD', 'HEAD:./']).finally(() => objects.close())
  }
  const HEAD = `printf '${'a'.repeat(40)} commit 3\\nabc\\n'`

  test.each([
    ['ends at once', 'exit 0', 'git broke off its answer'],
    ['ends after one answer', `read x; ${HEAD}; exit 0`, 'git broke off its answer'],
    [
      'breaks off in an object',
      `${HEAD}; printf '${'b'.repeat(40)} tree 900\\nabc'; exit 0`,
      'git broke off',
    ],
    ['breaks off in a head', `${HEAD}; printf '${'b'.repeat(40)} tr'; exit 0`, 'git broke off'],
    ['fails with a word', `${HEAD}; echo 'fatal: no more' >&2; exit 128`, 'git: fatal: no more'],
    ['is killed', `${HEAD}; kill -9 $$`, 'git: SIGKILL'],
  ])('a git that %s', async (_, script, message) => {
    await expect(asking(script)).rejects.toThrow(NoHistory)
    await expect(asking(script)).rejects.toThrow(message)
  })

  test('a git that answers more than it was asked, or has ended when it is asked again', async () => {
    const path = mkdtempSync(join(tmpdir(), 'rowbook-fake-git-'))
    const more = `echo $$ > '${path}/process'; read x; ${HEAD}; ${HEAD}; exec sleep 60`
    writeFileSync(join(path, 'git'), `#!/bin/sh\n${more}\n`, { mode: 0o755 })
    const objects = new GitObjects(placeOf(book.root, `${path}:${process.env.PATH}`))
    expect(await objects.ask(['HEAD'])).toMatchObject([{ type: 'commit' }])
    // What it says too much must have come before it is asked again, else it would pass for the answer; it is stopped then.
    while (isRunning(Number(readFileSync(join(path, 'process'), 'utf8')))) await sleep(10)
    await expect(objects.ask(['HEAD'])).rejects.toThrow('git broke off its answer')
    await expect(objects.ask(['HEAD'])).rejects.toThrow('git broke off its answer')
    objects.close()
  })

  test('outside a repository, and without git, it says what is wrong', async () => {
    const read = (root: string, path?: string) =>
      inRepository(placeOf(root, path), (objects) => readRevisions(objects, ['HEAD']))
    await expect(read(makeLedger())).rejects.toThrow('this ledger has no history')
    await expect(read(book.root, mkdtempSync(join(tmpdir(), 'rowbook-no-git-')))).rejects.toThrow(
      'not installed',
    )
  })
})

function isRunning(id: number): boolean {
  try {
    return process.kill(id, 0)
  } catch {
    return false
  }
}

/** Writes an object that no commit need hold. @returns its id. */
function blob(one: GitBook, text: string): string {
  const file = join(mkdtempSync(join(tmpdir(), 'rowbook-blob-')), 'text')
  writeFileSync(file, text)
  return one.git('hash-object', '-w', file).trim()
}
