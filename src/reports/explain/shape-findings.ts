/**
 * What each finding means that is raised while a ledger is read: of syntax, shape, reference and weather files.
 * The limits are the program's own; findings of rules say of themselves what they mean (`src/rules`).
 */
export const SHAPE_FINDINGS: Readonly<Record<string, string>> = {
  syntax:
    'The file is not valid YAML: a bracket, quote, colon or indentation is wrong. Nothing in the file is read until it is corrected.',
  'tab-indent': 'A line is indented with a tab. YAML needs spaces.',
  'several-documents': 'The file has several parts separated by `---`. A file of the ledger has one.',
  'merge-conflict':
    'Git could not join two versions of the file and left its marks in it. Keep one version and delete the marks.',
  directive:
    'The file has a YAML directive (`%YAML`, `%TAG`). It can change what words and numbers mean, so rowbook accepts none.',
  'line-ends': 'A line ends in a lone carriage return, as on very old machines.',
  'control-character':
    'The file has an invisible control character, or a mark that reverses the reading direction. It could hide or fake text.',
  'too-deep': 'Brackets or levels are nested far deeper than any entry needs.',
  'too-many-keys': 'An entry has more keys than any record knows, or a list in it has thousands of values.',
  alias:
    'The file uses an anchor or an alias. Write each value out, so that every line can be read by itself.',
  tag: 'The file uses a YAML tag, a word after `!`.',
  'odd-key': 'A key is not a plain word.',
  'duplicate-key': 'An entry has the same key twice, so one of the values would be lost.',
  'not-a-number': 'A number is infinite or not a number.',
  'empty-file': 'The file is empty.',
  'not-a-plain-file':
    'There is a link or a device where a file should be. Links are not followed, so nothing outside the ledger is read.',
  'no-such-file': 'There is no file of this name.',
  'unreadable-file': 'The system does not allow rowbook to read the file.',
  'text-too-long': 'A name or a one-line text has over 1000 letters, or a line of an export over 10 000.',
  'file-too-large': 'The file is larger than any record can be.',
  'not-utf8': "The file is not saved as UTF-8, so its letters can't be read.",
  'stray-file':
    'A file or folder that looks like a record is in a place that rowbook does not read. No report counts it.',
  'not-a-folder':
    'There is a link or a plain file where rowbook reads a folder. It follows no links, since they may lead out of the ledger.',
  'not-a-group':
    'The word is not a mode-of-action group. The label prints a number, one or two letters with digits, or NC.',
  'bad-id':
    'An id must be lower-case words joined by hyphens. Ids are file names, which must be the same on every machine.',
  'wrong-season':
    "An entry's date lies outside the season of its folder. Or all dates fit the other hemisphere, so the latitude has the wrong sign.",
  'missing-key': 'The record needs this key.',
  'missing-value': 'A key has no value.',
  'unknown-key': 'The record has no such key. It is reported, since a mistyped key would lose its value.',
  'wrong-type': 'The value is of the wrong kind: text for a number, or one value for a list.',
  'line-break':
    'A text that must be on one line has a line break. It could start something new in a file made from it. Only `note` takes several lines.',
  'unknown-word': 'The key does not take this word.',
  'impossible-value':
    'A figure is outside what is possible. The limits are wide: the decimal point or the unit is wrong.',
  'needs-unit': 'A number has no unit where several units are in use.',
  'wrong-unit': 'The unit measures something else than the key takes, like a mass for a volume.',
  'unknown-unit': 'rowbook does not know this unit.',
  'ambiguous-unit':
    "A unit's name means different sizes in different countries, like gal. With `units: us` or `units: uk` in vineyard.yaml it means the site's own.",
  'decimal-comma': 'A number has a comma, which could mark thousands or decimals.',
  'not-a-quantity': 'The text is not a number with a unit, or it is a range where one value is expected.',
  'bucket-not-weighed':
    'A weight is written in buckets, and vineyard.yaml does not say what a full one weighs, `harvest: { bucket: 9 kg }`.',
  'crate-not-weighed':
    'A weight is written in crates, and vineyard.yaml does not say what a full one weighs, `harvest: { crate: 12 kg }`.',
  'not-a-price': 'A price is not a number, a currency and a mass or volume, like `4.20 EUR/kg`.',
  'bad-date':
    'The text is not a date of the calendar, or can be read in two ways. The country of `timezone` decides which number is the month, where that country has one order.',
  'bad-time': 'The text is not a time of day, or the time ends before it starts.',
  'not-a-stage': 'The code is not on the BBCH scale of the grapevine.',
  'unknown-formulation': 'The formulation is not one of the international two-letter codes.',
  'unknown-timezone': 'The time zone is not an IANA name that this machine knows.',
  'two-extents': "An entry gives the part treated in two ways, so it isn't clear which is meant.",
  'two-doses': "A product of a spray has more than one dose, so it isn't clear which was used.",
  'two-measures': 'One thing is given twice in different measures, like sugar as brix and oechsle.',
  'more-than-looked-at':
    'More units are recorded with symptoms than were looked at, or nothing was looked at.',
  'unknown-block': 'An entry names a block that has no file in `blocks/`.',
  'unknown-variety': 'A block names a variety that has no file in `varieties/`.',
  'unknown-product': 'A spray names a product that has no file in `products/`.',
  'unknown-sprayer': 'A spray names a sprayer that has no file in `sprayers/`.',
  'unknown-file': "A record names a file that isn't there, or that is outside the ledger.",
  'no-time-column': 'The weather file has no column that rowbook recognises as times or dates.',
  'column-unclear': 'Several columns of an export could be the one needed: choose with --columns.',
  'date-unclear': 'The dates of an export could have the day or the month first: choose with --dates.',
  'rain-counts-up':
    'The rain of an export is a running total: confirm with --rain, and rowbook takes its rise.',
  'unit-unclear':
    'A column of an export names no unit, and its values fit several: choose with --column-units.',
  'unknown-column': 'rowbook does not know a column of the weather file, or one that vineyard.yaml names.',
  'bad-cell': 'A cell of a weather file is not a number, so its hour counts as unknown.',
  'impossible-reading': 'A reading of the station is outside what is possible, and counts as unknown.',
  'short-row':
    'A row of a weather file has too few cells, as in a file that was cut off. The missing ones count as unknown.',
  'stuck-sensor':
    'The temperature of a station stays exactly the same for 48 hours. The sensor is stuck, or rows were filled in. It still counts.',
  'unlikely-weather':
    'Readings of a whole weather file look like another unit. Half of the temperatures are over 36 °C, or half of the wet hours under 0.1 mm (days under 0.3 mm). Or no humidity is over 1.5 %, or half of the wind is over 6 m/s. Or leaves are never wet for more than a minute of an hour. Or temperature and humidity look swapped.',
  'clock-off':
    'A weather file has an hour that the clock skips in spring. So the station does not follow summer time.',
  'hour-twice': 'A weather file has the same hour twice.',
  'day-twice': 'A weather file has the same day twice.',
  'weather-gap':
    'Hours or days are missing from a weather file. Figures over them are given as bounds or not at all.',
  'out-of-order': 'The rows of a weather file are not in order of time.',
}
