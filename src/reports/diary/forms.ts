import type { DiaryRow } from './row.ts'

export type Form = 'full' | 'eu' | 'uk' | 'us'

/** A field of a row that a form asks for. */
type FieldKey = keyof Omit<DiaryRow, 'missing' | 'product' | 'block' | 'file' | 'line'>

interface FormField {
  key: FieldKey
  /** What the form calls it. */
  title: string
  /** Where to record it. */
  write: string
  /** Whether a row needs it; where left out, every row does. */
  neededBy?: (row: DiaryRow) => boolean
}

export interface FormRules {
  form: Form
  title: string
  /** Month up to which the law could be checked. */
  lawOf: string
  sources: { text: string; basis: 'read' | 'read elsewhere' | 'memory' }[]
  /** Years to keep the record. */
  keepYears: number
  keepWhy: string
  /** What else the form's law asks for. */
  duties: string[]
  authority: string
  fields: FormField[]
}

const PRODUCT = 'products/PRODUCT.yaml'

const number = (title: string): FormField => ({
  key: 'authorisation',
  title,
  write: `\`authorisation: { number: ... }\` in ${PRODUCT}`,
})
const DATE: FormField = { key: 'date', title: 'date', write: '`date` of the spray' }
const NAME: FormField = { key: 'productName', title: 'product', write: `\`name\` in ${PRODUCT}` }
const START: FormField = { key: 'start', title: 'start time', write: '`time: 18:40-20:05` in the spray' }
const END: FormField = { key: 'end', title: 'end time', write: '`time: 18:40-20:05` in the spray' }
const AREA: FormField = { key: 'area', title: 'area treated', write: '`rows` in blocks/BLOCK.yaml' }
const DOSE: FormField = { key: 'dose', title: 'dose per ha', write: 'basis of the dose' }
const TOTAL: FormField = { key: 'total', title: 'total product', write: 'basis of the dose' }
const CROP: FormField = { key: 'crop', title: 'crop', write: 'always grapevine' }
const CODE: FormField = { key: 'cropCode', title: 'EPPO code of the crop', write: 'always VITVI' }
const PLACE: FormField = {
  key: 'place',
  title: 'parcel',
  write: '`location: ...` (parcel number or other official place) or `boundary` in blocks/BLOCK.yaml',
}
const BLOCK: FormField = { key: 'blockName', title: 'place', write: '`name` in blocks/BLOCK.yaml' }
const USE: FormField = { key: 'typeOfUse', title: 'type of use', write: '`method` in the spray' }
const REASON: FormField = {
  key: 'reason',
  title: 'reason',
  write: '`for: powdery` at the product of the spray',
}
const WATER: FormField = { key: 'waterPerHa', title: 'water per ha', write: '`water: 300 L/ha` in the spray' }
const OPERATOR: FormField = { key: 'operator', title: 'operator', write: '`operator: ...` in the spray' }
const WIND: FormField = {
  key: 'wind',
  title: 'wind speed',
  write: '`weather: { wind: 1.8 m/s }` in the spray',
}
const FROM: FormField = {
  key: 'windFrom',
  title: 'wind direction',
  write: '`weather: { from: SW }` in the spray',
}
const RE_ENTRY: FormField = {
  key: 'reEntry',
  title: 're-entry interval',
  write: `\`re_entry: 24 h\` in ${PRODUCT}`,
}
const ACTIVES: FormField = { key: 'actives', title: 'active ingredients', write: `\`actives\` in ${PRODUCT}` }
const HARVEST: FormField = {
  key: 'beforeHarvest',
  title: 'pre-harvest interval (PHI), days',
  write: `\`before_harvest: 21 d\` in ${PRODUCT}`,
}
const CERTIFICATE: FormField = {
  key: 'certificate',
  title: 'certificate number',
  write: '`certificate: ...` in the spray (needed for restricted-use products)',
}
const STAGE: FormField = {
  key: 'stage',
  title: 'growth stage (BBCH)',
  write: '`stage: 65` in the spray',
  neededBy: (row) => row.stageNeeded,
}

/**
 * A spot treatment of less than a tenth of an acre has a shorter list (7 CFR 110.3, text of 2006, which states kept).
 */
const notSmallSpot = ({ method, area }: DiaryRow) =>
  !(method === 'spot' && area !== null && area.value < 0.1 * 0.40468564224)

const EU: FormRules = {
  form: 'eu',
  title: 'European Union: record of each use of a plant protection product',
  lawOf: '2025-11',
  sources: [
    { text: 'Regulation (EC) 1107/2009, Article 67(1)', basis: 'read elsewhere' },
    {
      text: 'Commission Implementing Regulation (EU) 2023/564 of 10 March 2023, OJ L 74, 13.3.2023, p. 4, Article 1; its Annex by the plant-protection services of German states',
      basis: 'read elsewhere',
    },
    { text: 'Commission Implementing Regulation (EU) 2025/2203 of 31 October 2025', basis: 'read elsewhere' },
    { text: 'EPPO code VITVI, Vitis vinifera', basis: 'memory' },
  ],
  keepYears: 3,
  keepWhy: 'the legal minimum, counted as German authorities do, from the end of the year of use',
  duties: [
    'Record each use without delay. Have it in electronic, machine-readable form within 30 days. Your state may set a shorter time. Until 2030 it may allow until 31 January of the next year. It may also delay the electronic form to 1 January 2027.',
    "Your state may need more, such as the operator's name.",
  ],
  authority: 'the plant-protection authority of your state',
  fields: [
    DATE,
    { ...START, neededBy: (row) => row.startNeeded },
    USE,
    NAME,
    number('authorisation number'),
    DOSE,
    BLOCK,
    PLACE,
    AREA,
    CROP,
    CODE,
    STAGE,
  ],
}

const UK: FormRules = {
  form: 'uk',
  title: 'United Kingdom: record of each use of a plant protection product',
  lawOf: '2025-11',
  sources: [
    { text: 'Regulation (EC) 1107/2009 as retained, Article 67', basis: 'memory' },
    { text: 'Welsh Government, cross-compliance page on plant protection products', basis: 'read' },
    { text: 'Scottish code of practice for using plant protection products, 2006, Annex F', basis: 'read' },
  ],
  keepYears: 3,
  keepWhy: 'the legal minimum (from memory), counted from the end of the year of use',
  duties: [
    'Write in `note` of the spray, too: what you told neighbours and beekeepers, signs put up, and any trouble. Say whether the crop or weeds were in flower.',
  ],
  authority: 'the Health and Safety Executive',
  fields: [
    DATE, START, END, BLOCK, AREA, CROP, REASON, NAME, number('MAPP number'), DOSE, TOTAL, WATER, OPERATOR, WIND,
    FROM, HARVEST, RE_ENTRY,
  ],
} // biome-ignore format: a list of fields reads better in few lines

const US: FormRules = {
  form: 'us',
  title: 'United States: worker protection information, and the record that states ask for',
  lawOf: '2025-11',
  sources: [
    {
      text: '7 CFR 110, federal records of restricted-use pesticides, was rescinded: final rule of 12 May 2025, FR Doc 2025-08220, effective 11 July 2025',
      basis: 'read elsewhere',
    },
    {
      text: '7 CFR 110.3(a) (text of 2006), whose fields many states still ask for',
      basis: 'read',
    },
    {
      text: '40 CFR 170.311(b), Worker Protection Standard, by University of Florida PI280',
      basis: 'read elsewhere',
    },
    { text: 'Minnesota Department of Agriculture, spot treatments under a tenth of an acre', basis: 'read' },
  ],
  keepYears: 2,
  keepWhy:
    'by the Worker Protection Standard, counted from the end of the year of use. States may ask for more',
  duties: [
    'The federal record of restricted-use pesticides (7 CFR 110) ended on 11 July 2025. State law and the Worker Protection Standard (40 CFR 170) remain. Ask your state what it needs recorded, and how soon.',
    'Where workers or handlers are employed, display this with the safety data sheet. Put it up within 24 hours of the end, and before workers enter. Leave it up until 30 days after the re-entry interval.',
    'Describe the place by county, range, township and section. A map, USDA numbering or its legal description will do, too. A spot treatment under a tenth of an acre is marked as spot application.',
  ],
  authority: "your state's lead pesticide agency",
  fields: [
    DATE,
    START,
    END,
    NAME,
    number('EPA registration number'),
    ACTIVES,
    TOTAL,
    BLOCK,
    PLACE,
    { ...AREA, neededBy: notSmallSpot },
    CROP,
    { ...OPERATOR, title: 'certified applicator', neededBy: notSmallSpot },
    { ...CERTIFICATE, neededBy: notSmallSpot },
    RE_ENTRY,
  ],
}

const merged = (...lists: FormField[][]) => [
  ...new Map(lists.flat().map((field) => [field.key, field])).values(),
]

const FULL: FormRules = {
  form: 'full',
  title: 'The fields of all forms',
  lawOf: '2025-11',
  sources: [...EU.sources, ...UK.sources, ...US.sources],
  keepYears: 3,
  keepWhy: 'the longest of the forms, counted from the end of the year of use',
  duties: ['Choose one form (--form eu, uk or us) to see what its law needs.'],
  authority: 'your own authority',
  fields: merged(EU.fields, UK.fields, US.fields).map((field) =>
    field.key === 'authorisation'
      ? number('authorisation number')
      : field.key === 'operator' || field.key === 'start' || field.key === 'area'
        ? {
            ...field,
            title: { operator: 'operator', start: 'start time', area: 'area treated' }[field.key],
            neededBy: undefined,
          }
        : field,
  ),
}

/** What each form asks for, by which law, and how long it is to be kept. */
export const FORM_RULES: Readonly<Record<Form, FormRules>> = { full: FULL, eu: EU, uk: UK, us: US }
