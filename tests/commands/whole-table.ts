import { commandOf } from '../../src/commands/index.ts'
import { TABLE } from '../../src/commands/table.ts'

/** Every command with all that it takes, in the order of the help. */
export const COMMANDS = await Promise.all(TABLE.map(({ name }) => commandOf(name)))
