import type { JudgedLedger } from '../facts/judged.ts'
import { byPlace, type Finding } from '../ledger/read/finding.ts'
import { daysBeforePlannedHarvest, sprayedAfterPicking } from './label/around-harvest.ts'
import { authorisationLapsed, notAuthorisedFor } from './label/authorisation.ts'
import { doseUnit, overConcentration, overRate, underRate, waterOutsideLabel } from './label/dose.ts'
import { doubtfulClearance } from './label/doubtful-clearance.ts'
import { intervalTooShort, tooManyApplications } from './label/how-often.ts'
import { insideDaysBeforeHarvest } from './label/inside-days-before-harvest.ts'
import { insideReEntry } from './label/inside-re-entry.ts'
import { keptApart, needsPartner, notToBeMixed } from './label/together.ts'
import { actionGroupCount, actionGroupRun } from './resistance/action-groups.ts'
import { copperOverSeason, copperOverYearsRule } from './resistance/copper-limits.ts'
import { findingsOf, type Rule } from './rule.ts'
import { areaDisagrees, moreThanBlock } from './slips/block-size.ts'
import { fileNameDate, futureDate } from './slips/dates.ts'
import { enteredTwice, twiceADay } from './slips/entered-twice.ts'
import { mixedUnits } from './slips/mixed-units.ts'
import { productDisagrees } from './slips/product-disagrees.ts'
import { stageBackwards, stageOutOfSeason } from './slips/stages.ts'
import { tenTimesUsual } from './slips/ten-times-usual.ts'
import { unlikelyBlock } from './slips/unlikely-block.ts'
import { unlikelyCrop } from './slips/unlikely-crop.ts'
import { unlikelyDay } from './slips/unlikely-day.ts'
import { unlikelyPick } from './slips/unlikely-pick.ts'
import { stockBelowUse, unlikelyProduct } from './slips/unlikely-product.ts'
import { unlikelySample } from './slips/unlikely-sample.ts'
import { unlikelySite } from './slips/unlikely-site.ts'
import { impossibleOutput, unlikelySpray } from './slips/unlikely-spray.ts'
import { calibrationOld, unlikelySprayer } from './slips/unlikely-sprayer.ts'
import { unlikelyWalk } from './slips/unlikely-walk.ts'
import { deltaTRule, lateSulphur, strongBicarbonate } from './weather/not-forbidden.ts'
import { sulphurCold, sulphurHeat } from './weather/sulphur-temperature.ts'
import { stillAir, windDirection, windy } from './weather/wind.ts'

/** Rules that can find an error. */
export const GRAVE: readonly Rule[] = [
  overRate,
  overConcentration,
  insideDaysBeforeHarvest,
  underRate,
  doseUnit,
  waterOutsideLabel,
  intervalTooShort,
  tooManyApplications,
  insideReEntry,
  authorisationLapsed,
  notAuthorisedFor,
  actionGroupRun,
  actionGroupCount,
  keptApart,
  notToBeMixed,
  needsPartner,
  doubtfulClearance,
  copperOverSeason,
  copperOverYearsRule,
  sulphurHeat,
  sulphurCold,
  windy,
  windDirection,
  stillAir,
  moreThanBlock,
  areaDisagrees,
]

/** Rules that only give warnings and hints: skipped where only errors are needed. */
const MILD: readonly Rule[] = [
  futureDate,
  fileNameDate,
  enteredTwice,
  mixedUnits,
  twiceADay,
  daysBeforePlannedHarvest,
  strongBicarbonate,
  lateSulphur,
  deltaTRule,
  tenTimesUsual,
  impossibleOutput,
  sprayedAfterPicking,
  stageBackwards,
  stageOutOfSeason,
  productDisagrees,
  stockBelowUse,
  calibrationOld,
  unlikelySite,
  unlikelyBlock,
  unlikelyProduct,
  unlikelySprayer,
  unlikelySpray,
  unlikelySample,
  unlikelyCrop,
  unlikelyDay,
  unlikelyPick,
  unlikelyWalk,
]

export const RULES: readonly Rule[] = [...GRAVE, ...MILD]

/** The findings of all rules in the ledger, in order of file. */
export function judge(input: JudgedLedger, rules: readonly Rule[] = RULES): Finding[] {
  return rules.flatMap((rule) => findingsOf(rule, input)).sort(byPlace)
}
