import type { DiaryRow } from './row.ts'

export type Form = 'full' | 'eu' | 'uk' | 'us'

/** A field of a row that a form asks for. */
type FieldKey = keyof Omit<DiaryRow, 'missing' | 'product' | 'block' | 'file' | 'line'>

interface FormField {
  key: Asked
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

/**
 * A spot treatment of less than a tenth of an acre has a shorter list (7 CFR 110.3, text of 2006, which states kept).
 */
const notSmallSpot = ({ method, area }: DiaryRow) =>
  !(method === 'spot' && area !== null && area.value < 0.1 * 0.40468564224)

const PRODUCT = 'products/PRODUCT.yaml'

/** What forms call a field, where to record it, and which rows need it, where not all do. */
const FIELDS = {
  date: ['date', '`date` of the spray'],
  start: ['start time', '`time: 18:40-20:05` in the spray'],
  end: ['end time', '`time: 18:40-20:05` in the spray'],
  typeOfUse: ['type of use', '`method` in the spray'],
  productName: ['product', `\`name\` in ${PRODUCT}`],
  authorisation: ['authorisation number', `\`authorisation: { number: ... }\` in ${PRODUCT}`],
  actives: ['active ingredients', `\`actives\` in ${PRODUCT}`],
  dose: ['dose per ha', 'basis of the dose'],
  total: ['total product', 'basis of the dose'],
  waterPerHa: ['water per ha', '`water: 300 L/ha` in the spray'],
  blockName: ['place', '`name` in blocks/BLOCK.yaml'],
  place: [
    'parcel',
    '`location: ...` (parcel number or other official place) or `boundary` in blocks/BLOCK.yaml',
  ],
  area: ['area treated', '`rows` in blocks/BLOCK.yaml'],
  crop: ['crop', 'always grapevine'],
  cropCode: ['EPPO code of the crop', 'always VITVI'],
  stage: ['growth stage (BBCH)', '`stage: 65` in the spray', (row) => row.stageNeeded],
  reason: ['reason', '`for: powdery` at the product of the spray'],
  operator: ['operator', '`operator: ...` in the spray'],
  certificate: [
    'certificate number',
    '`certificate: ...` in the spray (needed for restricted-use products)',
    notSmallSpot,
  ],
  wind: ['wind speed', '`weather: { wind: 1.8 m/s }` in the spray'],
  windFrom: ['wind direction', '`weather: { from: SW }` in the spray'],
  beforeHarvest: ['pre-harvest interval (PHI), days', `\`before_harvest: 21 d\` in ${PRODUCT}`],
  reEntry: ['re-entry interval', `\`re_entry: 24 h\` in ${PRODUCT}`],
} satisfies Partial<
  Record<FieldKey, readonly [title: string, write: string, neededBy?: FormField['neededBy']]>
>

type Asked = keyof typeof FIELDS

/** The fields of a form in its order, by their keys, with what is its own of some. */
const fieldsOf = (keys: string, own: Partial<Record<Asked, Partial<FormField>>> = {}): FormField[] =>
  (keys.split(' ') as Asked[]).map((key) => {
    const [title, write, neededBy]: readonly [string, string, FormField['neededBy']?] = FIELDS[key]
    return { key, title, write, neededBy, ...own[key] }
  })

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
  fields: fieldsOf(
    'date start typeOfUse productName authorisation dose blockName place area crop cropCode stage',
    { start: { neededBy: (row) => row.startNeeded } },
  ),
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
  fields: fieldsOf(
    'date start end blockName area crop reason productName authorisation dose total waterPerHa operator wind windFrom beforeHarvest reEntry',
    { authorisation: { title: 'MAPP number' } },
  ),
}

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
  fields: fieldsOf(
    'date start end productName authorisation actives total blockName place area crop operator certificate reEntry',
    {
      authorisation: { title: 'EPA registration number' },
      area: { neededBy: notSmallSpot },
      operator: { title: 'certified applicator', neededBy: notSmallSpot },
    },
  ),
}

const FULL: FormRules = {
  form: 'full',
  title: 'The fields of all forms',
  lawOf: '2025-11',
  sources: [...EU.sources, ...UK.sources, ...US.sources],
  keepYears: 3,
  keepWhy: 'the longest of the forms, counted from the end of the year of use',
  duties: ['Choose one form (--form eu, uk or us) to see what its law needs.'],
  authority: 'your own authority',
  fields: fieldsOf(
    [...new Set([EU, UK, US].flatMap(({ fields }) => fields.map(({ key }) => key)))].join(' '),
  ),
}

/** What each form asks for, by which law, and how long it is to be kept. */
export const FORM_RULES: Readonly<Record<Form, FormRules>> = { full: FULL, eu: EU, uk: UK, us: US }
