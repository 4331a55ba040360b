import { describe, expect, test } from 'vitest'
import { sizeQuestion } from '../../src/commands/prompts/block-questions.ts'
import { fieldQuestion } from '../../src/commands/prompts/field-question.ts'
import { productQuestions, weatherQuestion } from '../../src/commands/prompts/spray-questions.ts'
import { withWeek } from '../../src/commands/prompts/week-questions.ts'
import { wordingOf } from '../../src/commands/prompts/wording.ts'
import { openLedger } from '../../src/ledger/read/open.ts'
import { fieldsOf } from '../../src/reports/note/fields.ts'
import { makeLedger } from '../ledger/make.ts'

const ledgerIn = (units: string) =>
  openLedger(
    makeLedger({
      'vineyard.yaml': `name: Test Rows\nlatitude: 45\ntimezone: Europe/London\nunits: ${units}\n`,
    }),
    { seasons: 'all' },
  )

describe('answers in the units of the site', () => {
  test('a bare dose is in the unit of the label as the question gives it', () => {
    const dose = (units: string) =>
      productQuestions({ ledger: ledgerIn(units), before: [], chosen: ['sulphur'], hasTargets: true })[1]!
    expect(dose('metric').read('3')).toEqual({ parts: [{ option: 'product', text: 'sulphur=3 kg/ha' }] })
    expect(dose('us').ask).toContain('lb/acre')
    expect(dose('us').read('3')).toEqual({ parts: [{ option: 'product', text: 'sulphur=3 lb/acre' }] })
  })

  test('what is refused is answered with an example in those units', () => {
    expect(weatherQuestion('us').read('20 g').fault).toContain('4 mph SW 63 F 70 %')
    expect(weatherQuestion('metric').read('20 g').fault).toContain('2 m/s SW 17 C 70 %')
    const field = fieldsOf('crop').find(({ option }) => option === 'bunch-weight')!
    const weight = (units: string) =>
      fieldQuestion(field, {
        ledger: ledgerIn(units),
        asOf: '2026-08-01',
        wording: wordingOf('crop', 'bunch-weight'),
      })
    expect(weight('us').read('n').fault).toContain('like `3 oz`')
    expect(weight('metric').read('n').fault).toContain('like `3 g`')
    expect(sizeQuestion('metric').read('0,3 ha').fault).toContain('Write a point: `0.3 ha`')
  })

  test('a day of weather takes the unit behind a space', () => {
    const about = { ledger: ledgerIn('us'), asOf: '2026-08-01' }
    const date = { ...weatherQuestion('us'), key: 'date' }
    const week = withWeek([date], {
      ...about,
      answers: new Map([['date', [{ option: 'week', text: 'week' }]]]),
    })
    expect(week[1]!.read('7 C 70 \u00b0F 0.2 in')).toEqual({
      parts: [{ option: 'day', text: '2026-07-26 7C 70\u00b0F 0.2in' }],
    })
    expect(week[1]!.read('46 70').fault).toContain('like 46 70 0.2')
  })
})
