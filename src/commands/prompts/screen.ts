import type { Call } from '../plumbing/call.ts'
import { LineInput } from './line-input.ts'
import { askYes, type Screen } from './question.ts'

/** The terminal, for questions. */
export const screenOf = ({ env }: Call): Screen => ({
  input: new LineInput(),
  say: env.err,
  columns: env.columns,
})

/** Asks whether to do it, where nothing else is asked. @returns false also where the grower left */
export async function askOnce(call: Call, ask: string): Promise<boolean> {
  const screen = screenOf(call)
  try {
    return await askYes(ask, screen)
  } finally {
    screen.input.close()
  }
}
