import { byPlace, type Finding } from '../ledger/finding.ts'
import { actionGroupCount } from './action-group-count.ts'
import { actionGroupRun } from './action-group-run.ts'
import { areaDisagrees } from './area-disagrees.ts'
import { authorisationLapsed } from './authorisation-lapsed.ts'
import { calibrationOld } from './calibration-old.ts'
import { copperOverSeason } from './copper-over-season.ts'
import { copperOverYearsRule } from './copper-over-years.ts'
import { daysBeforePlannedHarvest } from './days-before-planned-harvest.ts'
import { deltaT } from './delta-t.ts'
import { doseUnit } from './dose-unit.ts'
import { enteredTwice } from './entered-twice.ts'
import { futureDate } from './future-date.ts'
import { impossibleOutput } from './impossible-output.ts'
import { insideDaysBeforeHarvest } from './inside-days-before-harvest.ts'
import { insideReEntry } from './inside-re-entry.ts'
import { intervalTooShort } from './interval-too-short.ts'
import { keptApart } from './kept-apart.ts'
import { moreThanBlock } from './more-than-block.ts'
import { notAuthorisedFor } from './not-authorised-for.ts'
import { overConcentration } from './over-concentration.ts'
import { overRate } from './over-rate.ts'
import { productDisagrees } from './product-disagrees.ts'
import { Recall } from './recall.ts'
import type { Book, Rule } from './rule.ts'
import { sprayedAfterPicking } from './sprayed-after-picking.ts'
import { stageBackwards } from './stage-backwards.ts'
import { stageOutOfSeason } from './stage-out-of-season.ts'
import { stillAir } from './still-air.ts'
import { stockBelowUse } from './stock-below-use.ts'
import { sulphurCold } from './sulphur-cold.ts'
import { sulphurHeat } from './sulphur-heat.ts'
import { tenTimesUsual } from './ten-times-usual.ts'
import { tooManyApplications } from './too-many-applications.ts'
import { underRate } from './under-rate.ts'
import { unlikelyBlock } from './unlikely-block.ts'
import { unlikelyCrop } from './unlikely-crop.ts'
import { unlikelyPick } from './unlikely-pick.ts'
import { unlikelyProduct } from './unlikely-product.ts'
import { unlikelySample } from './unlikely-sample.ts'
import { unlikelySite } from './unlikely-site.ts'
import { unlikelySpray } from './unlikely-spray.ts'
import { unlikelySprayer } from './unlikely-sprayer.ts'
import { unlikelyWalk } from './unlikely-walk.ts'
import { waterOutsideLabel } from './water-outside-label.ts'
import { windDirection } from './wind-direction.ts'
import { windy } from './windy.ts'

/** Every rule, in the order in which they are run. */
export const RULES: readonly Rule[] = [
  futureDate,
  enteredTwice,
  overRate,
  overConcentration,
  insideDaysBeforeHarvest,
  underRate,
  doseUnit,
  waterOutsideLabel,
  intervalTooShort,
  tooManyApplications,
  daysBeforePlannedHarvest,
  insideReEntry,
  authorisationLapsed,
  notAuthorisedFor,
  actionGroupRun,
  actionGroupCount,
  keptApart,
  copperOverSeason,
  copperOverYearsRule,
  sulphurHeat,
  sulphurCold,
  windy,
  windDirection,
  stillAir,
  deltaT,
  tenTimesUsual,
  moreThanBlock,
  impossibleOutput,
  sprayedAfterPicking,
  stageBackwards,
  stageOutOfSeason,
  areaDisagrees,
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
  unlikelyPick,
  unlikelyWalk,
]

/** What all rules find in the book, in the order of the files. A rule is only run where what it looks at has changed. */
export function judge(book: Book): Finding[] {
  const recall = new Recall(book)
  return RULES.flatMap((rule) => recall.findings(rule)).sort(byPlace)
}
