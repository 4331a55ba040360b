import type { Call } from '../plumbing/call.ts'
import type { Screen } from './ask-all.ts'

/** The terminal, for questions. */
export async function screenOf(call: Call): Promise<Screen> {
  const { LineInput } = await import('./line-input.ts')
  return { input: new LineInput(), say: call.env.err, columns: call.env.columns }
}
