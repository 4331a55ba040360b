import { figures, under } from '../../facts/figure.ts'

/** What `explain` says of the figures of `sugar`. */
export const FIGURES = figures('ripening', [
  {
    name: 'brix',
    keys: ['sugar.brix', 'sugar.brixLow', 'sugar.brixHigh', 'ripeness.samples.brix'],
    what: 'Grams of sugar in 100 g of juice by refractometer, at 20 °C. Of a sample, the mean of its readings.',
    formula:
      'A reading without temperature compensation is corrected to 20 °C by the table. `brixLow` and `brixHigh` allow 0.03 on either side of a row that is from memory.',
    units: 'degrees Brix',
    limits:
      'Readings are corrected within 5 to 30 °C and 10 to 30 Brix only. Conversions hold within 0 to 40 Brix.',
    memory:
      'OIV-MA-AS2-02, revised 2012, table I, Compendium p. 49, rows at 5, 7, 10, 12, 14 and 16 °C read, and 20 °C, where nothing is corrected; the other rows from memory, within 0.03 of lines or a curve through those read',
  },
  {
    name: 'specific-gravity',
    keys: ['sugar.specificGravity'],
    what: 'Density of the juice relative to water, both at 20 °C, as a hydrometer shows it.',
    formula: 'SG = 1 + B / (258.6 - 227.1 B / 258.2)',
    limits: 'It holds for 0 to 40 Brix. It is at most 0.00016 above the sucrose table.',
    'common practice':
      'common practice, no source: a formula without a named author; agrees with the sucrose table of the CRC Handbook, year not known',
  },
  {
    name: 'oechsle',
    keys: ['sugar.oechsle'],
    what: 'Degrees Oechsle: thousandths of specific gravity above 1.',
    formula: 'Oechsle = 1000 (SG - 1)',
    units: 'degrees Oechsle',
    read: 'German wine glossaries, year not known; the historic scale was set at 17.5 °C',
  },
  {
    name: 'baume',
    keys: ['sugar.baume'],
    what: 'Degrees Baumé of liquids heavier than water.',
    formula: 'Baumé = 145 - 145 / SG',
    units: 'degrees Baumé',
    choices: 'The modulus is 145 at 20/20 °C. At 15/15 °C it would be 144.32.',
    read: 'enologia.blog, year not known',
  },
  {
    name: 'sugar-per-litre',
    keys: ['sugar.sugarPerLitre', 'ripeness.samples.sugarPerLitre'],
    what: 'Fermentable sugar in a litre of must.',
    formula: 'within 15 to 25 Brix: (0.6757 Brix - 2.0839) / 0.05943; outside: 2.66 Oechsle - 30',
    units: 'g/L',
    choices: 'The two formulas agree within 3 g/L at both ends. Below about 3 Brix there is no value.',
    'second-hand':
      'line through table II of OIV-MA-AS2-02, second-hand, as given by a refractometer maker, year not known; OIV-OENO 466-2012, read in Italian (0.05943 % vol per g/L); German Oechsle line, as given by a refractometer maker, year not known',
  },
  {
    name: 'potential-alcohol',
    keys: [...under('sugar.potentialAlcohol', 'low likely high'), 'ripeness.samples.potentialAlcohol'],
    what: 'Alcohol if all sugar ferments: the lowest, likely and highest of the published methods.',
    formula:
      'likely within 15 to 25 Brix: 0.6757 Brix - 2.0839; likely outside: 0.059 x (2.66 Oechsle - 30). The lowest and the highest come from four figures: these two, 0.55 Brix, 0.60 Brix and sugar per litre / 17. The first counts only within 15 to 25 Brix.',
    units: '% vol',
    choices: 'Methods differ by more than 1 % vol, so a range is shown, not one figure.',
    'common practice':
      'OIV-OENO 466-2012; the line through OIV-MA-AS2-02, table II, and the German Oechsle line, second-hand, as given by refractometer makers, year not known; 17 g: trade glossary of bordeaux.com, year not known; 0.55 and 0.60: common practice, no source',
  },
  {
    name: 'rough-alcohol',
    keys: ['sugar.roughAlcohol'],
    what: 'Half of Brix, a very rough figure: 1-2 % vol too low.',
    formula: '% vol = Brix / 2',
    units: '% vol',
    'common practice': 'common practice, no source',
  },
  {
    name: 'brix-acid-ratio',
    keys: ['sugar.brixAcidRatio'],
    what: 'Sugar to acid: 30 to 35 is a common aim; cool districts may reach only 25.',
    formula: 'ratio = 10 x Brix / titratable acidity in g/L as tartaric',
    'second-hand':
      'Cox, From Vines to Wines, year not known, second-hand, read in the winemaking FAQ of TULARC',
  },
  {
    name: 'brix-ph-squared',
    keys: ['sugar.brixPhSquared'],
    what: 'Brix times the square of pH: about 200 is often quoted for white wine, 260 for red.',
    formula: 'Brix x pH²',
    'second-hand':
      'Coombe, Dundon & Short 1980, J. Sci. Food Agric. 31:495-502, citation read; targets: Cox, From Vines to Wines, second-hand, read in the winemaking FAQ of TULARC',
  },
  {
    name: 'must-scales',
    keys: ['sugar.kmw', 'sugar.alcoholMethods', 'sugar.reading'],
    what: 'The reading as typed, degrees KMW, and potential alcohol by each published method.',
    formula: 'Oechsle = KMW x (0.022 KMW + 4.54)',
    units: 'degrees KMW; % vol',
    'second-hand':
      'Ambrosi 1994, Wein von A bis Z, second-hand, as cited by lebensmittellexikon.de; methods as potential-alcohol',
  },
])
