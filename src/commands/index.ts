import { check } from './check.ts'
import type { Command } from './command.ts'
import { heat } from './heat.ts'
import { mix } from './mix.ts'
import { ripeness } from './ripeness.ts'
import { note } from './note.ts'
import { start } from './start.ts'
import { sugar } from './sugar.ts'
import { window } from './window.ts'

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [start, check, note, mix, heat, ripeness, sugar, window]
