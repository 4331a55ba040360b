import { nodeEnv, tell, workingFolder } from './env.ts'

/**
 * Runs the program for a command line.
 * @param kept the program's own folder in the user's cache and the name of the build, where anything is kept.
 * @returns the exit status.
 */
export async function main(
  argv: readonly string[],
  kept?: { folder: string; build: string },
): Promise<number> {
  const cwd = workingFolder()
  if (cwd === null) {
    tell('rowbook: the folder that you are in was deleted or may not be read\n  go to another folder: cd\n')
    return 2
  }
  const { env, flush } = nodeEnv(cwd, kept)
  if (argv.includes('--timings')) env.timings = new (await import('./timings.ts')).Timings()
  env.timings?.lap('starting Node and the program')
  const status = await (await import('./run.ts')).run(argv, env)
  env.timings?.lap('making the answer')
  const isOut = await flush()
  env.timings?.lap('writing it, and keeping what was read for the next time')
  if (env.timings) env.err(String(env.timings))
  return isOut ? status : 2
}
