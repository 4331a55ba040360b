import { check } from './check.ts'
import type { Command } from './command.ts'
import { mix } from './mix.ts'
import { start } from './start.ts'

/** Every command, in the order of the help. */
export const COMMANDS: readonly Command[] = [start, check, mix]
