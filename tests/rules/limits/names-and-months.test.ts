import { expect, test } from 'vitest'
import { FILES, findings } from '../sound-season.ts'

const FILE = 'products/sulphur.yaml'
const PICKS = 'seasons/2026/picks.yaml'

const against = (words: string) => ({
  ...FILES,
  [FILE]: FILES[FILE]!.replace('against: powdery', `against: ${words}`),
})

test.each(['powdry', 'botritis', 'phomopsys'])(
  'a label against %s is asked which disease it means',
  (words) => {
    const own = findings(against(words)).filter(({ file, name }) => file === FILE && name === 'unknown-word')
    expect(own).toMatchObject([{ level: 'error', help: expect.stringContaining('did you mean `') }])
    expect(own[0]!.message).toContain(`\`${words}\``)
  },
)

test.each(['Powdery', 'powdery mildew', 'oidium'])('a label against %s is against powdery', (words) =>
  expect(findings(against(words))).toEqual(findings(FILES)),
)

test.each(['mites', 'weeds', 'scale insects', 'dead arm'])('a label against %s is left alone', (against) => {
  const files = {
    ...FILES,
    [FILE]: FILES[FILE]!.replace('uses:\n', `uses:\n  - { against: ${against}, rate: 2-4 kg/ha }\n`),
  }
  expect(files[FILE]).toContain(against)
  expect(findings(files)).toEqual(findings(FILES))
})

test.each([
  ['2026-02-09', true],
  ['2026-06-30', true],
  ['2026-07-01', false],
])('a pick of %s: told of its time of year %s', (date, told) => {
  const changed = { ...FILES, [PICKS]: FILES[PICKS]!.replace('date: 2026-09-20', `date: ${date}`) }
  const own = findings(changed).filter(({ message }) =>
    message.includes('no grapes are ripe at that time of year'),
  )
  expect(own.length > 0).toBe(told)
})
