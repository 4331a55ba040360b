import type { Disease } from '../../records/disease.ts'
import type { ACTS, Product } from '../../records/kinds/product.ts'
import { holdsCopper, holdsSulphur, isBicarbonate, isOilProduct } from '../spraying/actives.ts'
import { DRYING_HOURS } from '../spraying/re-entry.ts'

type Act = (typeof ACTS)[number]

/**
 * How a product acts: by its record, else by its mode-of-action group. Copper and sulphur (M01, M02) are contact
 * protectants. Bicarbonates (NC) and oils act by contact on existing mildew, and can't be relied on later (contact
 * options on mildew: Nita, Virginia Tech, Late season powdery mildew #2, 2011, read; bicarbonate is contact and washes
 * off: French agro-ecology wiki, read). Biologicals (BM) are preventive and short (common practice, no source). For all
 * others the label must say.
 */
function actionOf(product: Product): { acts: readonly Act[]; group: keyof typeof OF_GROUP | null } {
  const { acts, systemic } = product
  if (acts) return { acts, group: null }
  if (systemic === 'yes') return { acts: ['protectant', 'systemic'], group: null }
  const group = defaultOf(product)
  return { acts: group ? OF_GROUP[group] : [], group }
}

/** How a product of a group acts where its record doesn't say: a `lasting` or `short` protectant, or only on disease that is there. */
const OF_GROUP = {
  lasting: ['protectant', 'contact'],
  short: ['protectant'],
  'on what is there': ['contact'],
} as const satisfies Record<string, readonly Act[]>

function defaultOf(product: Product): keyof typeof OF_GROUP | null {
  if (isBicarbonate(product) || isOilProduct(product)) return 'on what is there'
  if (holdsCopper(product) || holdsSulphur(product)) return 'lasting'
  const groups = product.actives.map(({ group }) => group ?? '')
  if (groups.includes('NC')) return 'on what is there'
  const gentle = groups.some((group) => group.startsWith('BM'))
  return gentle || product.kind === 'biological' || product.nature === 'biological' ? 'short' : null
}

/** Whether it keeps off new infections for a time. */
const lasts = (acts: readonly Act[]) => acts.some((act) => act === 'protectant' || act === 'systemic')

/**
 * mm of rain that end a deposit without lasting protection: one tip of a common rain gauge. Common practice, no source.
 */
const FIRST_RAIN = 0.2
/** Most days for which a deposit without lasting protection counts. Common practice, no source. */
const CONTACT_DAYS = 2
/** Days that a biological protects where the label's interval is longer or not given. Common practice, no source. */
const SHORT_DAYS = 7
/**
 * Total mm of rain that wash off a contact protectant where its label gives none: French simulated-rain trial, La
 * Vigne/Phytoma VI1532118402 (renew from 25 mm in total; read); Missouri Grape and Wine Institute 2019 (an inch; read).
 */
const CONTACT_WASH_OFF = 25

/** The limits of a product's protection against a disease: the label's figures, else the default for how it acts. */
export function actionLimits(product: Product, disease: Disease) {
  const { acts, group } = actionOf(product)
  const lasting = acts.length === 0 ? null : lasts(acts)
  const contact = acts.includes('contact') && !acts.includes('systemic')
  const interval = product.uses.find(({ against }) => against === disease)?.interval
  const short = group === 'short' ? Math.min(interval?.low ?? SHORT_DAYS, SHORT_DAYS) : null
  return {
    /** Days that it protects; null where unknown. */
    protectsDays: product.protects ?? (lasting === false ? CONTACT_DAYS : short),
    /** Dry hours that the deposit needs. */
    rainFastHours: product.rain?.fast ?? DRYING_HOURS,
    /** Total mm of rain that wash it off; null where unknown. */
    washOff: product.rain?.washed_off ?? (lasting === false ? FIRST_RAIN : contact ? CONTACT_WASH_OFF : null),
    /** Whether it moves into new growth. */
    systemic: acts.includes('systemic'),
    /** Whether it keeps off new infections, or only acts on existing disease; null where unknown. */
    lasting,
  }
}

/** Hours after infection in which a product still acts; null where its label gives none or it is not curative. */
export function curesHours(product: Product): number | null {
  const { acts } = actionOf(product)
  return product.cures !== undefined && (product.acts === undefined || acts.includes('curative'))
    ? product.cures
    : null
}
