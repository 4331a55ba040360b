import { describe, expect, it } from 'vitest'
import { COMMON_OPTIONS } from '../../src/commands/plumbing/command.ts'
import { NOTE_FIELDS, NOTE_MANNERS } from '../../src/commands/plumbing/note-options.ts'
import { SEASON_KINDS, SINGULAR } from '../../src/records/kinds.ts'
import { fieldsOf } from '../../src/reports/note/fields.ts'

const nameOf = ({ flags }: { flags: string }) => /--([a-z-]+)/.exec(flags)![1]!

describe('the options of note', () => {
  const options = new Map(NOTE_FIELDS.map((option) => [nameOf(option), option]))

  it('are the fields of all kinds of entry, no more and no less', () => {
    const fields = new Set(SEASON_KINDS.flatMap((kind) => fieldsOf(kind).map((field) => field.option)))
    fields.delete('block')
    expect([...options.keys()].filter((name) => !fields.has(name))).toEqual(['weather'])
    expect([...fields].filter((name) => !options.has(name))).toEqual([])
  })

  it('name the kinds of entry that they are fields of', () => {
    for (const [name, { of }] of options) {
      const kinds = SEASON_KINDS.filter(
        (kind) =>
          (kind === 'sprays' && name === 'weather') || fieldsOf(kind).some(({ option }) => option === name),
      )
      expect([...(of ?? [])].sort(), name).toEqual(kinds.map((kind) => SINGULAR[kind]).sort())
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
})
