import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import {
  commandListIn,
  commandsIn,
  fencedBlocks,
  layOutRecords,
  type Played,
  playAll,
  samplesIn,
  withCommandList,
  withPlayed,
} from './readme-samples.ts'
import { runJson } from './run.ts'

const PROJECT = fileURLToPath(new URL('../..', import.meta.url))
const WRITES = process.env.ROWBOOK_README === 'write'
const PAGES = ['README.md', 'DEVELOPERS.md']

const read = (page: string) => readFileSync(`${PROJECT}/${page}`, 'utf8')

describe.each(PAGES)('%s', (page) => {
  const markdown = read(page)
  const samples = samplesIn(markdown)
  let played: Played[] = []
  beforeAll(() => {
    played = playAll(samples)
  }, 180_000)

  test('shows what rowbook prints in `console` blocks only, where it is held to be true', () => {
    const others = fencedBlocks(markdown).filter(({ language }) => language !== 'console')
    expect(
      others.map(({ language }) => language).filter((word) => !/^(?:text|sql|yaml|ts|)$/.test(word)),
    ).toEqual([])
    expect(others.filter(({ text }) => /^\$ /m.test(text))).toEqual([])
  })

  // `ROWBOOK_README=write npx vitest run tests/commands/readme.test.ts` writes the samples and the list anew.
  if (WRITES)
    test('is written anew', () => {
      expect(played.flatMap(({ failed }) => failed)).toEqual([])
      writeFileSync(`${PROJECT}/${page}`, withCommandList(withPlayed(markdown, played)))
    })
  else
    test.each(samples.map((text, at) => [commandsIn(text).at(-1)!.command, at] as const))(
      'prints whole, with exit status 0: %s',
      (_, at) => {
        expect(played[at]!.failed).toEqual([])
        expect(played[at]!.text).toBe(samples[at])
      },
    )

  test('names only files and folders that exist', () => {
    expect(pathsIn(markdown).filter((path) => !existsAnywhere(path))).toEqual([])
  })

  test('links only to files and headings that exist', () => {
    const headings = new Set([...markdown.matchAll(/^#+ (.*)$/gm)].map(([, text]) => anchor(text!)))
    const links = [...markdown.matchAll(/\]\(([^)]+)\)/g)].map(([, to]) => to!)
    expect(
      links.filter((to) =>
        to.startsWith('#') ? !headings.has(to.slice(1)) : !existsSync(`${PROJECT}/${to}`),
      ),
    ).toEqual([])
  })
})

describe('README', () => {
  const markdown = read('README.md')

  test('has samples, each with a command and what it prints', () => {
    const samples = samplesIn(markdown)
    expect(samples.length).toBeGreaterThan(5)
    for (const text of samples) expect(commandsIn(text).length).toBeGreaterThan(0)
  })

  test.skipIf(WRITES)('lists every command with the words of its help', () => {
    expect(commandListIn(markdown)).not.toBeNull()
    expect(commandListIn(withCommandList(markdown))).toBe(commandListIn(markdown))
  })

  test('shows records of every kind that pass `check` together', () => {
    const { ledger, paths } = layOutRecords(markdown)
    const kinds = ['blocks', 'varieties', 'products', 'sprayers']
    const entries = ['sprays', 'scouting', 'samples', 'stages', 'crop', 'picks', 'work', 'weather']
    for (const folder of [...kinds, ...entries])
      expect(
        paths.some((path) => path.split('/').includes(folder)),
        folder,
      ).toBe(true)
    const { status, json } = runJson(['check', '--ledger', ledger, '--as-of', '2026-11-01'])
    expect([status, json.findings]).toEqual([0, []])
    expect(json.data.records).toMatchObject({ blocks: 1, sprays: 1, picks: 1 })
  })
})

test('DEVELOPERS.md lists every folder of src', () => {
  const layers = fencedBlocks(read('DEVELOPERS.md'))[0]!.text
  const folders = readdirSync(`${PROJECT}/src`, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ parentPath, name }) => relative(PROJECT, join(parentPath, name)).replaceAll('\\', '/'))
    .filter((folder) => !/^src\/(?:reports|render)\/|^src\/(?:agronomy|ledger|reports|rules)$/.test(folder))
  expect(folders.length).toBeGreaterThan(25)
  expect(folders.filter((folder) => !layers.includes(`${folder}/ `))).toEqual([])
})

const NAMES_A_PATH =
  /^(?:src|tests|examples|bin|records|ledger|agronomy|facts|rules|reports|render|commands)\/|\.(?:ts|mjs|cjs|md)$/

/** The paths in the project that a page names between backticks; NAME in capitals is for the reader to fill in. */
function pathsIn(markdown: string): string[] {
  const prose = markdown.replace(/^```[\s\S]*?^```$/gm, '')
  return [...prose.matchAll(/`([\w./-]+)`/g)]
    .map(([, path]) => path!)
    .filter((path) => NAMES_A_PATH.test(path) && !/\b(?:NAME|TOPIC|PART)\b/.test(path))
}

/** DEVELOPERS.md names files of src by their path below it, and files of a folder just named by their name. */
function existsAnywhere(path: string): boolean {
  if ([path, `src/${path}`].some((at) => existsSync(`${PROJECT}/${at}`))) return true
  return FILES.some((file) => file === path || file.endsWith(`/${path}`))
}

const FILES = ['src', 'tests', 'examples', 'bin'].flatMap((folder) =>
  readdirSync(`${PROJECT}/${folder}`, { recursive: true, encoding: 'utf8' }).map(
    (file) => `${folder}/${file}`,
  ),
)

/** The anchor of a heading, as GitHub and others make it. */
function anchor(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\w\- ]/g, '')
    .replaceAll(' ', '-')
}
