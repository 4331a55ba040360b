import { spawnSync } from 'node:child_process'

/**
 * Runs command lines in turn, round after round, so that what else the machine does falls on all of them alike.
 * @param cases name -> { args, program?, env?, prepare? }; the program is the `node` that runs this.
 * @param rounds how often each is run; the first round is not counted.
 * @returns name -> { median, low } in milliseconds of wall clock.
 */
export function interleaved(cases, rounds) {
  const times = new Map(Object.keys(cases).map((name) => [name, []]))
  for (let round = -1; round < rounds; round += 1) {
    for (const [name, { program = process.execPath, args, env, prepare }] of Object.entries(cases)) {
      prepare?.()
      const start = performance.now()
      const ran = spawnSync(program, args, {
        stdio: ['ignore', 'pipe', 'pipe'],
        env: { ...process.env, NO_COLOR: '1', ...env },
        maxBuffer: 1 << 28,
      })
      const took = performance.now() - start
      if (ran.status !== 0 && ran.status !== 1) throw new Error(`${name}: exit ${ran.status}\n${ran.stderr}`)
      if (round >= 0) times.get(name).push(took)
    }
  }
  return Object.fromEntries(
    [...times].map(([name, list]) => [name, { median: median(list), low: Math.min(...list) }]),
  )
}

/** The middle of a list of numbers. */
export function median(list) {
  const sorted = [...list].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
