import { calibrate } from './calibrate.ts'
import { check } from './check.ts'
import type { Command } from './command.ts'
import { completion } from './completion.ts'
import { crop } from './crop.ts'
import { diary } from './diary.ts'
import { harvest } from './harvest.ts'
import { heat } from './heat.ts'
import { mix } from './mix.ts'
import { note } from './note.ts'
import { pressure } from './pressure.ts'
import { ready } from './ready.ts'
import { ripeness } from './ripeness.ts'
import { schema } from './schema.ts'
import { start } from './start.ts'
import { sugar } from './sugar.ts'
import { totals } from './totals.ts'
import { window } from './window.ts'

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [
  start,
  check,
  note,
  mix,
  calibrate,
  totals,
  heat,
  pressure,
  ripeness,
  sugar,
  window,
  crop,
  harvest,
  ready,
  diary,
  schema,
  completion,
]
