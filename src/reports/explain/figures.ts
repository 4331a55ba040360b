import type { Figure } from '../../facts/figure.ts'
import { FIGURES as CALENDAR } from '../calendar/figures.ts'
import { FIGURES as CALIBRATE } from '../calibrate/figures.ts'
import { FIGURES as CHANGES } from '../changes/figures.ts'
import { FIGURES as CHECK } from '../check/figures.ts'
import { FIGURES as COMPARE } from '../compare/figures.ts'
import { FIGURES as COVER } from '../cover/figures.ts'
import { FIGURES as CROP } from '../crop/figures.ts'
import { FIGURES as DIARY } from '../diary/figures.ts'
import { FIGURES as HARVEST } from '../harvest/figures.ts'
import { FIGURES as HEAT } from '../heat/figures.ts'
import { FIGURES as IMPORT } from '../import/figures.ts'
import { FIGURES as LABEL } from '../label/figures.ts'
import { FIGURES as MIX } from '../mix/figures.ts'
import { FIGURES as NOTE } from '../note/figures.ts'
import { FIGURES as PRESSURE } from '../pressure/figures.ts'
import { FIGURES as READY } from '../ready/figures.ts'
import { FIGURES as RIPENESS } from '../ripeness/figures.ts'
import { FIGURES as SCOUTING } from '../scouting/figures.ts'
import { FIGURES as SHEET } from '../sheet/figures.ts'
import { FIGURES as SUGAR } from '../sugar/figures.ts'
import { FIGURES as TODAY } from '../today/figures.ts'
import { FIGURES as TOTALS } from '../totals/figures.ts'
import { FIGURES as WINDOW } from '../window/figures.ts'

/** Every computed figure of the JSON contract, for `explain`, footnotes and pages: report by report, in the order of each. */
export const FIGURES: readonly Figure[] = [
  ...MIX,
  ...CALIBRATE,
  ...TOTALS,
  ...PRESSURE,
  ...COVER,
  ...SCOUTING,
  ...SUGAR,
  ...RIPENESS,
  ...WINDOW,
  ...READY,
  ...CROP,
  ...HARVEST,
  ...HEAT,
  ...CHECK,
  ...NOTE,
  ...TODAY,
  ...SHEET,
  ...CALENDAR,
  ...IMPORT,
  ...CHANGES,
  ...COMPARE,
  ...LABEL,
  ...DIARY,
]
