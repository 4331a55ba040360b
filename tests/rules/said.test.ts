import { expect, test } from 'vitest'
import { SITE } from '../ledger/make.ts'
import { asTold } from './as-told.ts'
import { LIMITS } from './limits/cases.ts'
import { filesWith, MISTAKES } from './slips.ts'
import { findings } from './sound-season.ts'

const said = (files: Readonly<Record<string, string>>): string => findings(files).map(asTold).sort().join('')

// The words were read over when they were kept; a change of them shows in the difference and is read again.
test('what each slip and each limit passed is told, word by word', async () => {
  const parts = [
    ...MISTAKES.map((slip) => `# ${slip.from} -> ${slip.to}\n${said(filesWith(slip))}`),
    ...LIMITS.map(([finding, , outside]) => `# ${finding}\n${said({ ...SITE, ...outside })}`),
  ]
  await expect(parts.join('\n')).toMatchFileSnapshot('said.txt')
})
