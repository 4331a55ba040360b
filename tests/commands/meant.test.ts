import { expect, test } from 'vitest'
import { run } from './run.ts'

test.each([
  [['spray'], 'rowbook note spray'],
  [['samples', '--brix', '19'], 'rowbook note sample'],
  [['ready', 'pond'], 'rowbook ready --block pond'],
  [['ready', 'top terrace'], 'rowbook ready --block "top terrace"'],
  [['sugar', '18'], 'rowbook sugar --brix 18'],
  [['note'], 'rowbook note scouting  a round of looking for disease\n  rowbook note sample'],
  [['block'], 'rowbook note block'],
  [['product', '--name', 'x'], 'rowbook note product'],
  [['sugar', '18.5'], 'rowbook sugar --brix 18.5'],
  [['crop', 'pond'], 'rowbook crop --block pond'],
  [['mix', 'pond'], 'rowbook mix --block pond'],
  [['mix', 'sulphur=3kg/ha'], 'rowbook mix --product sulphur=3kg/ha'],
  [['note', 'spray', 'pond'], 'rowbook note spray --block pond'],
  [['totals', '2025'], 'rowbook totals --season 2025'],
  [['harvest', '6'], 'rowbook harvest --people 6'],
  [['diary', 'us'], 'rowbook diary --form us'],
  [['brix', '21'], 'rowbook sugar --brix'],
  [['when', 'can', 'I', 'pick'], 'rowbook window'],
  [['powdery'], 'rowbook pressure'],
  [['version'], 'rowbook --version'],
  [['help', 'spray'], 'rowbook note spray'],
  [['note', 'count'], 'rowbook note crop'],
  [['note', 'spraying'], 'rowbook note spray'],
  [['import', 'spray', 'log.csv'], 'rowbook import sprays'],
  [['mix', 'sulphur'], 'rowbook mix --product sulphur'],
  [['heat', '10'], 'rowbook heat --base 10'],
  [['today', 'tomorrow'], 'rowbook today --as-of tomorrow'],
])('%j proposes the line that was meant', (argv, line) => {
  const { status, stdout, stderr } = run(argv)
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toContain(line)
})

test.each([
  [['cover', 'powdery'], 'did you mean `rowbook cover --for powdery`?'],
  [['undo'], 'did you mean `rowbook note --undo`?'],
  [['--', '-x'], 'there is no command `-x`'],
  [['ready', '--date', '2026-09-14'], 'did you mean `--as-of`?'],
  [['window', '--brix', '20'], 'did you mean `--target brix=20`?'],
  [['note', 'spray', '--prodct', 'a'], 'did you mean `--product`?'],
  [['start'], 'for example `rowbook start my-vineyard`'],
  [['start', 'nowhere-made', '--timezone', 'berlin'], 'did you mean `Europe/Berlin`?'],
  [['import'], 'needs KIND'],
  [['diary', '--form', 'de'], 'write one of full, eu, uk, us'],
  [['check', 'seasons/2026'], 'run `rowbook check --season 2026`'],
  [['check', 'seasons/2026/sprays/2026-08-28-kiln-bank.yaml'], 'run `rowbook check --season 2026`'],
  [['check', 'rows/vineyard.yaml'], 'run `rowbook check --ledger rows`'],
  [['check', 'rows/products/sulphur.yaml'], 'run `rowbook check --ledger rows`'],
  [['check', 'rows'], 'run `rowbook check --ledger rows`'],
  [['label', 'sulphur'], 'run `rowbook label`; what is recorded of one product'],
  [['diary', '--year', '2025'], 'did you mean `--season`?'],
  [['ready', '-b', 'top'], 'did you mean `--block`?'],
  [['note', 'spray', '--dose', '3'], 'did you mean `--product "ID=3 kg/ha"`?'],
  [['pressure', 'powdery'], 'what it takes: rowbook pressure --help'],
  [['totals', 'copper'], 'what it takes: rowbook totals --help'],
  [
    ['note', 'scouting', '--ledger', 'examples/far-quillet', '--block', 'top', '--looked-at', '50'],
    'or write it as --looked-at bunches=50',
  ],
  [['map'], 'all commands: rowbook help'],
])('%j is refused in words of its own, with a way out', (argv, said) => {
  const { status, stdout, stderr } = run(argv)
  expect([status, stdout]).toEqual([2, ''])
  expect(stderr).toMatch(/^rowbook: /)
  expect(stderr).not.toMatch(/argument|error:/)
  expect(stderr).toContain(said)
})

test.each([
  ['14 sept 2026', 'Mon 14 Sep'],
  ['14/9/2026', 'Mon 14 Sep'],
  ['5/6/2026', 'Fri 5 Jun'],
])('a day typed as %s is read by the country of the site', (day, shown) => {
  const { status, stdout } = run(['today', '--ledger', 'examples/far-quillet', '--as-of', day])
  expect(status).toBe(0)
  expect(stdout.split(':')[0]).toBe(shown)
})

test('without a site both readings of a date are given', () => {
  const { status, stderr } = run(['sugar', '--brix', '20', '--as-of', '5/6/2026'])
  expect(status).toBe(2)
  expect(stderr).toContain('write 2026-06-05 or 2026-05-06')
})

test('blocks are taken by any part of their names, in any case', () => {
  const shown = (block: string) =>
    run(['ready', '--ledger', 'examples/far-quillet', '--as-of', '2026-09-14', '--block', block]).stdout
  expect(shown('TOP, kiln')).toBe(shown('top-terrace,kiln-bank'))
  expect(shown('all')).toBe(shown('top-terrace,kiln-bank,brook-rows,gate-field'))
})

test('a missing file is reported as missing', () => {
  const { stderr } = run(['import', 'weather', '/nowhere/station.csv', '--ledger', 'examples/far-quillet'])
  expect(stderr).toContain('no such file')
  expect(stderr).not.toMatch(/permission|ENOENT/)
})
