import { runHere } from '../faults/in-process.ts'

// biome-ignore lint/suspicious/noExplicitAny: an answer of --json is looked into by name.
export type Data = any

/** The data that a command answers with `--json`, asked as a grower would type it. */
export async function answer(
  command: string,
  options: Record<string, string | readonly string[] | true>,
): Promise<Data> {
  const args = Object.entries(options).flatMap(([name, value]) =>
    value === true ? [`--${name}`] : [value].flat().flatMap((one) => [`--${name}`, one]),
  )
  const { out, err } = await runHere([command, ...args, '--json'])
  if (out === '') throw new Error(err)
  return JSON.parse(out).data
}
