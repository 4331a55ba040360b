import { inGround, inLedgerUnits, type Units, unitNames } from '../../facts/ledger-units.ts'
import { type Explained, sourceAndBasis } from './everything.ts'

/** What a figure or finding is, in the units of the ledger. */
export const whatText = (one: Explained, units: Units): string =>
  inLedgerUnits(inGround(one.what, units), units, aboutOf(one))

/** The facts below it, each with its title. JSON stays in metric units. */
export function factsOf(one: Explained, units: Units): [title: string, text: string | undefined][] {
  const said = (text: string | undefined) => text && inLedgerUnits(text, units, aboutOf(one))
  const own = one.units && unitNames(one.units, units)
  return [
    ['formula', said(one.formula)],
    ['units', own === one.units ? own : `${own} (in JSON ${one.units})`],
    ['limits', said(one.limits)],
    ['choices', said(one.choices)],
    ['source', sourceAndBasis(one)],
    ['in JSON', one.keys.length > 0 ? one.keys.join(', ') : undefined],
  ]
}

/** Of acid and sugar, g/L stays as it is. */
const aboutOf = ({ what, limits = '' }: Explained) =>
  /\b(?:acid|sugar|must)\b/.test(what + limits) ? 'any' : 'spray'
