import { calendar } from './calendar.ts'
import { calibrate } from './calibrate.ts'
import { changes } from './changes.ts'
import { check } from './check.ts'
import { compare } from './compare.ts'
import { completionCommand } from './completion.ts'
import { cover } from './cover.ts'
import { crop } from './crop.ts'
import { diary } from './diary.ts'
import { explain } from './explain.ts'
import { exportCommand } from './export.ts'
import { harvest } from './harvest.ts'
import { heat } from './heat.ts'
import { importCommand } from './import.ts'
import { label } from './label.ts'
import { manualCommand } from './manual.ts'
import { mix } from './mix.ts'
import { note } from './note.ts'
import type { Command } from './plumbing/command.ts'
import { pressure } from './pressure.ts'
import { ready } from './ready.ts'
import { ripeness } from './ripeness.ts'
import { schema } from './schema.ts'
import { scouting } from './scouting.ts'
import { season } from './season.ts'
import { sheet } from './sheet.ts'
import { start } from './start.ts'
import { sugar } from './sugar.ts'
import { today } from './today.ts'
import { totals } from './totals.ts'
import { window } from './window.ts'

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [
  start,
  check,
  note,
  today,
  mix,
  calibrate,
  totals,
  heat,
  pressure,
  cover,
  sheet,
  scouting,
  ripeness,
  sugar,
  window,
  crop,
  harvest,
  ready,
  season,
  diary,
  compare,
  changes,
  label,
  exportCommand(() => COMMANDS),
  explain,
  importCommand,
  calendar,
  schema,
  manualCommand(() => COMMANDS),
  completionCommand(() => COMMANDS),
]
