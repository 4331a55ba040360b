import type { ACTS, Product } from '../../records/product.ts'
import type { Disease } from '../../records/target.ts'
import { holdsCopper, holdsSulphur, isBicarbonate, isOilProduct } from '../spraying/actives.ts'
import { DRYING_HOURS } from '../spraying/re-entry.ts'

type Act = (typeof ACTS)[number]

/** How a product acts on a disease, and who says so. */
interface Action {
  /** Empty where neither label nor group says. */
  acts: readonly Act[]
  basis: 'label' | 'group' | 'unknown'
  /** The default of its group, where that decides: `lasting` and `short` protectants, or only on what is there. */
  group: 'lasting' | 'short' | 'on what is there' | null
}

/**
 * How a product acts: by its record; where that says nothing, by its mode-of-action group. Copper and sulphur (M01, M02)
 * are contact protectants. Bicarbonates (NC) and oils act by contact on mildew that is there, and nothing of them can be
 * counted on later (contact options on mildew: Nita, Virginia Tech, Late season powdery mildew #2, 2011, read; bicarbonate
 * is contact and washes off: French agro-ecology wiki, read). Biologicals (BM) are preventive and short (common practice,
 * no source). Of all others the label must say.
 */
function actionOf(product: Product): Action {
  const { acts, systemic } = product
  if (acts) return { acts, basis: 'label', group: null }
  if (systemic === 'yes') return { acts: ['protectant', 'systemic'], basis: 'label', group: null }
  const group = defaultOf(product)
  return { acts: group ? OF_GROUP[group] : [], basis: group ? 'group' : 'unknown', group }
}

const OF_GROUP = {
  lasting: ['protectant', 'contact'],
  short: ['protectant'],
  'on what is there': ['contact'],
} as const satisfies Record<string, readonly Act[]>

function defaultOf(product: Product): Action['group'] {
  if (isBicarbonate(product) || isOilProduct(product)) return 'on what is there'
  if (holdsCopper(product) || holdsSulphur(product)) return 'lasting'
  const groups = product.actives.map(({ group }) => group ?? '')
  if (groups.includes('NC')) return 'on what is there'
  const gentle = groups.some((group) => group.startsWith('BM'))
  return gentle || product.kind === 'biological' || product.nature === 'biological' ? 'short' : null
}

/** Whether what an act leaves behind keeps new infections off for a time. */
const lasts = (acts: readonly Act[]) => acts.some((act) => act === 'protectant' || act === 'systemic')

/** mm of rain that end what was never there to stay: one tip of a common rain gauge. Common practice, no source. */
const FIRST_RAIN = 0.2
/** Days at most for which a deposit without lasting protection is counted: to the next day but one. Common practice, no source. */
const CONTACT_DAYS = 2
/** Days that a biological protects where the label's interval is longer or not given. Common practice, no source. */
const SHORT_DAYS = 7
/**
 * mm of rain in sum that take a contact protectant off where its label gives none: French simulated-rain trial, La
 * Vigne/Phytoma VI1532118402 (renew from 25 mm in sum; read); Missouri Grape and Wine Institute 2019 (an inch; read).
 */
const CONTACT_WASH_OFF = 25

/** What ends a product's protection besides growth and interval. */
interface ActionLimits {
  /** Days that it protects; null where nothing says. */
  protectsDays: number | null
  /** Hours without rain that the deposit needs to dry. */
  rainFastHours: number
  /** mm of rain in sum that take it off; null where nothing says. */
  washOff: number | null
  /** Whether it moves into new growth. */
  systemic: boolean
  /** Whether it keeps new infections off at all, or only acts on what is there; null where nothing says. */
  lasting: boolean | null
}

/** The limits of a product's protection against a disease: the label's own figures, else the default of how it acts. */
export function actionLimits(product: Product, disease: Disease): ActionLimits {
  const { acts, group } = actionOf(product)
  const lasting = acts.length === 0 ? null : lasts(acts)
  const contact = acts.includes('contact') && !acts.includes('systemic')
  const interval = product.uses.find(({ against }) => against === disease)?.interval
  const short = group === 'short' ? Math.min(interval?.low ?? SHORT_DAYS, SHORT_DAYS) : null
  return {
    protectsDays: product.protects ?? (lasting === false ? CONTACT_DAYS : short),
    rainFastHours: product.rain?.fast ?? DRYING_HOURS,
    washOff: product.rain?.washed_off ?? (lasting === false ? FIRST_RAIN : contact ? CONTACT_WASH_OFF : null),
    systemic: acts.includes('systemic'),
    lasting,
  }
}

/** Hours after infection in which a product still acts; null where its label names none, or names it as no cure. */
export function curesHours(product: Product): number | null {
  const { acts } = actionOf(product)
  return product.cures !== undefined && (product.acts === undefined || acts.includes('curative'))
    ? product.cures
    : null
}
