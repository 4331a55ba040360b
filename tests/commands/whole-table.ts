import { commandsOf } from '../../src/commands/index.ts'

/** Every command with all that it takes, in the order of the help. */
export const COMMANDS = await commandsOf()
