/**
 * What each finding means that is raised while a ledger is read: of syntax, shape, reference and weather files.
 * The limits are the program's own; findings of rules say of themselves what they mean (`src/rules`).
 */
export const SHAPE_FINDINGS: Readonly<Record<string, string>> = {
  syntax:
    'The file is no valid YAML: a bracket, quote, colon or indentation is off. Nothing of the file is read until it is.',
  'tab-indent': 'A tab is used to indent, which YAML does not take.',
  'several-documents':
    'The file holds more than one YAML document, separated by `---`; a file of the ledger holds one.',
  'merge-conflict': 'Git could not join two versions of the file and left its marks in it.',
  directive:
    'A YAML directive (`%YAML`, `%TAG`) stands in the file. A directive can change what words and numbers mean, so none is taken.',
  'line-ends': 'A line ends in a lone carriage return, as on very old machines.',
  'control-character':
    'An invisible control character or a mark that turns the reading direction stands in the file. It could hide or fake text.',
  'too-deep': 'Brackets or levels stand one in another far deeper than any entry needs.',
  'too-many-keys': 'An entry has more keys than any record knows, or a list in it thousands of values.',
  alias:
    'An anchor or an alias is used. The ledger writes each value out, so that every line can be read by itself.',
  tag: 'A YAML tag, a word behind `!`, is used.',
  'odd-key': 'A key is no plain word.',
  'duplicate-key': 'A key stands twice in one entry, so that one of its values would be lost.',
  'not-a-number': 'A number is infinite or no number.',
  'empty-file': 'The file holds nothing.',
  'not-a-plain-file':
    'A link or a device stands where a file should. Links are not followed, so that nothing outside the ledger is read.',
  'no-such-file': 'There is no file of this name.',
  'unreadable-file': 'The system does not let the file be read.',
  'file-too-large': 'The file is larger than any record can be.',
  'not-utf8': "The file is not in UTF-8, so that its letters can't be known.",
  'stray-file':
    'A file or folder that looks like a record lies where none is read. What stands in it counts in no report.',
  'not-a-folder':
    'A link or a plain file stands where rowbook reads a folder. No link is followed, since it may lead out of the ledger.',
  'not-a-group':
    'The word is no mode-of-action group: such a group is a number, a letter or two with digits, or NC, as the label prints it.',
  'bad-id':
    'An id is not made of lower-case words joined by hyphens. Ids are file names, which must be the same on every machine.',
  'wrong-season': "An entry's date lies outside the season of its folder.",
  'missing-key': 'A key that the record needs is not there.',
  'missing-value': 'A key stands there with no value behind it.',
  'unknown-key':
    "A key is not one of the record's: a slip of the pen would otherwise lose what stands behind it.",
  'wrong-type':
    'A value is of another kind than its key takes: a text for a number, or one value for a list.',
  'line-break':
    'A text that must be on one line has a line break, which could begin something new in a file made from it. Only `note` takes several lines.',
  'unknown-word': 'A word is not one of those that the key takes.',
  'impossible-value':
    'A figure lies outside what can be; the limits are wide, so it is a slip of the point or the unit.',
  'needs-unit': 'A number stands without a unit where several units are in use.',
  'wrong-unit': 'A unit measures something else than the key takes, like a mass for a volume.',
  'unknown-unit': 'A unit is not one that rowbook knows.',
  'ambiguous-unit': "A unit's name means different sizes in different countries, like gal.",
  'decimal-comma': 'A number has a comma, which could part thousands or decimals.',
  'not-a-quantity': 'A text is no number with a unit, or a range stands where one value is wanted.',
  'bucket-not-weighed':
    'A weight is written in buckets, and vineyard.yaml does not say what a full one weighs, `harvest: { bucket: 9 kg }`.',
  'crate-not-weighed':
    'A weight is written in crates, and vineyard.yaml does not say what a full one weighs, `harvest: { crate: 12 kg }`.',
  'not-a-price': 'A price is not a number, a currency and a mass or volume, like `4.20 EUR/kg`.',
  'bad-date': 'A text is no date of the calendar, or not written as year-month-day.',
  'bad-time': 'A text is no time of day, or ends before it starts.',
  'not-a-stage': 'A code is not on the BBCH scale of the grapevine.',
  'unknown-formulation': 'A formulation is not one of the international two-letter codes.',
  'unknown-timezone': 'A time zone is not one of the IANA names that this machine knows.',
  'two-extents': "An entry says in two ways how much was treated, so that it isn't plain which is meant.",
  'two-doses': "A product of a spray has more than one dose, so that it isn't plain which was used.",
  'two-measures': 'One thing is given twice in different measures, like sugar as brix and oechsle.',
  'more-than-looked-at': 'More units are said to have symptoms than were looked at, or none of them was.',
  'unknown-block': 'An entry names a block that has no file in `blocks/`.',
  'unknown-variety': 'A block names a variety that has no file in `varieties/`.',
  'unknown-product': 'A spray names a product that has no file in `products/`.',
  'unknown-sprayer': 'A spray names a sprayer that has no file in `sprayers/`.',
  'unknown-file': "A record names a file that isn't there, or that lies outside the ledger.",
  'no-time-column': 'A weather file has no column of times or dates that can be recognised.',
  'column-unclear': 'Several columns of an export may each be what is wanted: say which with --columns.',
  'date-unclear':
    'The dates of an export can be read with the day or the month first: say which with --dates.',
  'rain-counts-up': 'The rain of an export is a running total: say so with --rain, and its rise is taken.',
  'unit-unclear':
    'A column of an export names no unit and its values fit several: say which with --column-units.',
  'unknown-column': "A column of a weather file, or one that the site's record names, is not known.",
  'bad-cell': 'A cell of a weather file is no number, so that its hour counts as unknown.',
  'impossible-reading': 'A reading of the station lies outside what can be, and counts as unknown.',
  'short-row':
    'A row of a weather file ends before its last cell, as in a file that was cut off; what lacks counts as unknown.',
  'stuck-sensor':
    'The temperature of a station stays the same to the digit for 48 hours: a sensor that is stuck, or rows that were filled in. It still counts.',
  'unlikely-weather':
    'Temperatures or rain of a whole weather file read like those of another unit: half of the temperatures over 36 °C, or half of the wet hours under 0.1 mm (days under 0.3 mm).',
  'clock-off':
    'A weather file has an hour that the clock leaves out in spring, so that the station does not follow summer time.',
  'hour-twice': 'An hour stands twice in a weather file.',
  'day-twice': 'A day stands twice in a weather file.',
  'weather-gap':
    'Hours or days are missing in a weather file. Figures over them are given as bounds or not at all.',
  'out-of-order': 'The rows of a weather file do not follow each other in time.',
}
