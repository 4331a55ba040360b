import { describe, expect, it } from 'vitest'
import { COMMON_OPTIONS } from '../../src/commands/plumbing/command.ts'
import {
  NOTE_KINDS,
  NOTE_MANNERS,
  noteFields,
  RECORD_FIELDS,
  RECORD_KINDS,
} from '../../src/commands/plumbing/note-options.ts'
import { SEASON_KINDS, SINGULAR, STANDING_KINDS } from '../../src/records/kinds.ts'
import { fieldsOf } from '../../src/reports/note/fields.ts'

const nameOf = ({ flags }: { flags: string }) => /--([a-z-]+)/.exec(flags)![1]!

describe('the options of note', () => {
  const kinds: readonly string[] = NOTE_KINDS
  const options = new Map(
    noteFields().flatMap((option) => {
      const of = (option.of ?? []).filter((kind) => kinds.includes(kind))
      return of.length === 0 ? [] : [[nameOf(option), { ...option, of }] as const]
    }),
  )

  it('are the fields of all kinds of entry, no more and no less', () => {
    const fields = new Set(SEASON_KINDS.flatMap((kind) => fieldsOf(kind).map((field) => field.option)))
    fields.delete('block')
    expect([...options.keys()].filter((name) => !fields.has(name))).toEqual(['weather'])
    expect([...fields].filter((name) => !options.has(name))).toEqual([])
  })

  it('name the kinds of entry that they are fields of', () => {
    for (const [name, { of }] of options) {
      const own = SEASON_KINDS.filter(
        (kind) =>
          (kind === 'sprays' && name === 'weather') || fieldsOf(kind).some(({ option }) => option === name),
      )
      expect([...of].sort(), name).toEqual(own.map((kind) => SINGULAR[kind]).sort())
    }
  })

  it('may be repeated where a field takes several', () => {
    for (const kind of SEASON_KINDS) {
      for (const { option, form } of fieldsOf(kind)) {
        if (form === 'value' || form === 'blocks') continue
        expect(options.get(option)?.repeats, `--${option} of ${kind}`).toBe(true)
      }
    }
  })

  it('collide with no option of every command, and with none of its manners', () => {
    const taken = new Set([...COMMON_OPTIONS, ...NOTE_MANNERS].map(nameOf))
    expect([...options.keys()].filter((name) => taken.has(name))).toEqual([])
  })

  it('of standing records are fields of their schemas, and take several where those do', () => {
    expect(STANDING_KINDS.map((kind) => SINGULAR[kind]).sort()).toEqual([...RECORD_KINDS].sort())
    for (const option of RECORD_FIELDS) {
      for (const kind of STANDING_KINDS) {
        const field = fieldsOf(kind).find((one) => one.option === nameOf(option))
        if (!option.of?.includes(SINGULAR[kind])) continue
        expect(field, `--${nameOf(option)} of ${kind}`).toBeDefined()
        const isList = ['actives', 'uses'].includes(field!.path[0]!)
        expect(option.repeats === true, `--${nameOf(option)} of ${kind}`).toBe(isList)
      }
    }
  })

  it('of standing records give all that must be there', () => {
    for (const kind of STANDING_KINDS)
      for (const field of fieldsOf(kind).filter(({ required }) => required))
        expect(
          RECORD_FIELDS.some((one) => nameOf(one) === field.option && one.of?.includes(SINGULAR[kind])),
          `${field.option} of ${kind}`,
        ).toBe(true)
  })

  it('of entries and standing records together name each option once', () => {
    const names = [...noteFields(), ...NOTE_MANNERS].map(nameOf)
    expect(names).toHaveLength(new Set(names).size)
    expect(COMMON_OPTIONS.map(nameOf).filter((name) => name !== 'block' && names.includes(name))).toEqual([])
  })
})
