import { version } from '../../../package.json'
import { nodeEnv } from './env.ts'
import { KeptAnswer } from './kept-answer.ts'

/**
 * Runs the program for a command line. Where an earlier run answered the same one, and nothing that the answer
 * rests on has changed since, it is given again, and the rest of the program isn't even loaded.
 * @param build the name of this build, where the program is built. @returns the exit status.
 */
export async function main(argv: readonly string[], build?: string): Promise<number> {
  const { env, flush } = nodeEnv(build)
  if (argv.includes('--timings')) env.timings = new (await import('./timings.ts')).Timings()
  env.timings?.lap('starting Node and the program')
  if (argv.length === 1 && argv[0] === '--version') {
    env.out(`rowbook ${version}\n`)
    return (await flush()) ? 0 : 2
  }
  const kept = env.cache ? new KeptAnswer(env.cache, argv, env) : null
  const answer = await kept?.find()
  env.timings?.lap('looking for the answer of an earlier run')
  if (answer) {
    env.err(answer.err)
    env.out(answer.out)
  }
  const status = answer ? answer.status : await (await import('./run.ts')).run(argv, kept?.noting() ?? env)
  if (!answer) env.timings?.lap('making the answer')
  const isOut = await flush()
  if (!answer) await kept?.keep(status)
  env.timings?.lap('writing it, and keeping it for the next time')
  if (env.timings) env.err(String(env.timings))
  return isOut ? status : 2
}
