import type { Mutation } from './mutate.ts'

/**
 * Changes that leave a valid ledger: another grower could have written it, and nothing in the records contradicts it.
 * Every other change must be found on its line. `tests/faults/README.md` says the same in words.
 */
const CLASSES: readonly { how: RegExp; field: RegExp; why: string }[] = [
  { how: /^ten per cent more$/, field: /./, why: 'inside what varies from year to year and vine to vine' },
  { how: /^a day later$/, field: /./, why: 'one day is as good as the other' },
  {
    how: /^taken out$/,
    field:
      /^(?!.*\b(date|block|blocks|products|product|rate|amount|weight|name|latitude|timezone|form|kind|actives|uses|against|tank|colour|variety|row_spacing|vine_spacing|looked_at|found|stage|at|job)$)/,
    why: 'the key is optional, and the record is complete without it',
  },
  {
    how: /^taken out$/,
    field: /actives\.\*\.name|keep_apart|weather|found\..*|^stage$|uses\.\*/,
    why: 'likewise',
  },
  {
    how: /^zero$/,
    field:
      /(found\.|bunches_per_vine|missing|hours|people|stock$|sorted_out|rest|humidity|wind|severity|temperature)/,
    why: 'none were found, or there was none',
  },
  {
    how: /^(ten times|a thousand times|a tenth|zero)$/,
    field: /^(hours|people|crates)$/,
    why: 'work is only added up; how long it took varies by more than that',
  },
  {
    how: /^(ten times|a thousand times|a tenth)$/,
    field: /^(looked_at|found)\./,
    why: 'a walk may be short or long; more found than looked at is refused',
  },
  {
    how: /^(a tenth|a decimal comma)$/,
    field: /^bunches_per_vine\.\*$/,
    why: 'few bunches on a young vine; in brackets a comma parts two readings',
  },
  {
    how: /^(zero|a tenth|ten times|capitals|a letter dropped|a tenth of the low end|ten times the high end)$/,
    field:
      /(before_harvest|^tank$|^kind$|re_entry|price|rain\.|max_rate|max_total|interval|stages$|^stage$|water|targets\.|thresholds\.|berries|share|shoots|harvest\.|temperature|rows|heat\.|after_veraison|berry_weight|protects|gap|limits\.|group|planted|missing|canopy\.|juice|rest|severity|humidity|wind|stock$)/,
    why: 'inside what such a figure may be; nothing else in the book says what it should be, as a label would',
  },
  {
    how: /^(a year later|a century off)$/,
    field: /(until|from|stocked|calibrated)$/,
    why: 'a later or an older day is possible; one still to come is told',
  },
  {
    how: /^a tenth$/,
    field: /^actives\.\*\.content$/,
    why: 'labels hold a tenth too; what a dose would bring of sulphur or copper is judged, of others it is not known',
  },
  {
    how: /^ten times$/,
    field: /^(bunches_per_vine|bunch_weight)\.\*$/,
    why: 'ten times the least of several is within five times their middle, and so far vines and bunches differ',
  },
  {
    how: /^a tenth$/,
    field: /^row_length$/,
    why: 'a terrace has rows of six metres, where no area or outline of the block says otherwise',
  },
  { how: /^a tenth$/, field: /^sorted_out$/, why: 'little was sorted out' },
  { how: /^capitals$/, field: /^weather\.columns\./, why: 'the head of a column is met in capitals too' },
  { how: /^capitals$/, field: /(^|\.)(for|against)$/, why: 'a disease is known by its name in capitals too' },
  { how: /^a tenth$/, field: /^pressure$/, why: 'from half a bar on, nozzles of a lance still spray' },
  { how: /^a tenth$/, field: /^prunings$/, why: 'a young or a weak vine has so few' },
  { how: /^a decimal comma$/, field: /\.\*$/, why: 'in brackets a comma parts two readings' },
]

/** Whether a change is of a class that leaves a valid ledger. */
export function isSilent({ field, how }: Pick<Mutation, 'field' | 'how'>): boolean {
  return CLASSES.some((one) => one.how.test(how) && one.field.test(field))
}
