import { mkdirSync, mkdtempSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { writeOwnFile } from '../../../src/ledger/write/own-file.ts'

const MARK = 'made by rowbook'
const folder = () => mkdtempSync(join(tmpdir(), 'rowbook-own-'))
const write = (cwd: string, file: string, more: { force?: boolean } = {}) =>
  writeOwnFile({ cwd, file, text: `${MARK}\nnew\n`, mark: MARK, force: false, ...more })

test('writes a new file, and replaces one of its own', () => {
  const cwd = folder()
  write(cwd, 'page.html')
  writeFileSync(join(cwd, 'page.html'), `${MARK}\nold\n`)
  write(cwd, 'page.html')
  expect(readFileSync(join(cwd, 'page.html'), 'utf8')).toBe(`${MARK}\nnew\n`)
  expect(readdirSync(cwd)).toEqual(['page.html'])
})

test('leaves a file that rowbook did not make alone, unless asked', () => {
  const cwd = folder()
  writeFileSync(join(cwd, 'page.html'), 'mine')
  expect(() => write(cwd, 'page.html')).toThrow(/page\.html/)
  expect(readFileSync(join(cwd, 'page.html'), 'utf8')).toBe('mine')
  write(cwd, 'page.html', { force: true })
  expect(readFileSync(join(cwd, 'page.html'), 'utf8')).toContain('new')
})

test('writes through no link, even when asked', () => {
  const cwd = folder()
  writeFileSync(join(cwd, 'target'), `${MARK}\n`)
  symlinkSync(join(cwd, 'target'), join(cwd, 'page.html'))
  expect(() => write(cwd, 'page.html', { force: true })).toThrow(/link/)
  expect(readFileSync(join(cwd, 'target'), 'utf8')).toBe(`${MARK}\n`)
})

test('never writes among the records of a ledger, nor anything that looks like a record', () => {
  const root = folder()
  mkdirSync(join(root, 'blocks'))
  writeFileSync(join(root, 'vineyard.yaml'), '')
  symlinkSync(join(root, 'blocks'), join(root, 'way-in'))
  for (const file of ['blocks/page.html', 'way-in/page.html', 'vineyard.yaml', 'page.YML'])
    expect(() => write(root, file, { force: true })).toThrow(/ledger/)
  expect(readdirSync(join(root, 'blocks'))).toEqual([])
})

test('says that a folder is missing', () => {
  expect(() => write(folder(), 'no/page.html')).toThrow(/folder/)
})
