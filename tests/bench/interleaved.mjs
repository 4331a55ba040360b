import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const usage = fileURLToPath(new URL('usage.cjs', import.meta.url))

/**
 * Runs command lines in turn, round after round, so that what else the machine does falls on all of them alike.
 * @param cases name -> { args, program?, env?, prepare? }; the program is the `node` that runs this.
 * @param rounds how often each is run; @param warm whether a first round is run that is not counted.
 * @returns name -> the middle figures: { clock, processor } in ms, where the processor's time is that of all
 *   threads and null for another program than node, and `memory` at its peak in MB.
 */
export function interleaved(cases, rounds, warm = true) {
  const figures = new Map(Object.keys(cases).map((name) => [name, []]))
  for (let round = warm ? -1 : 0; round < rounds; round += 1) {
    for (const [name, { program, args, env, prepare }] of Object.entries(cases)) {
      prepare?.()
      const start = performance.now()
      const ran = spawnSync(program ?? process.execPath, program ? args : ['--require', usage, ...args], {
        stdio: ['ignore', 'pipe', 'pipe'],
        encoding: 'utf8',
        env: { ...process.env, NO_COLOR: '1', ...env },
        maxBuffer: 1 << 28,
      })
      const clock = performance.now() - start
      if (ran.status !== 0 && ran.status !== 1) throw new Error(`${name}: exit ${ran.status}\n${ran.stderr}`)
      const [, processor, memory] = /^USAGE (\S+) (\S+)$/m.exec(ran.stderr) ?? []
      if (round >= 0) figures.get(name).push({ clock, processor, memory })
    }
  }
  const middle = (list, key) =>
    list[0][key] === undefined ? null : median(list.map((one) => Number(one[key])))
  return Object.fromEntries(
    [...figures].map(([name, list]) => [
      name,
      {
        clock: middle(list, 'clock'),
        processor: middle(list, 'processor'),
        memory: middle(list, 'memory'),
      },
    ]),
  )
}

/** The middle of a list of numbers. */
export function median(list) {
  const sorted = [...list].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2
}
