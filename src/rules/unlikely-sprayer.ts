import { exceeds } from '../agronomy/exceeds.ts'
import { checkNozzles } from '../agronomy/nozzle-check.ts'
import { say } from './facts/say.ts'
import { odd, unusual } from './facts/usual.ts'
import type { Rule } from './rule.ts'

const NAME = 'unlikely-sprayer'

/** A sprayer whose figures no sprayer has, or whose nozzles don't agree with each other or with its flow. */
export const unlikelySprayer: Rule = {
  name: NAME,
  about: {
    what: 'Tank, flow, speed or pressure are outside what vineyard sprayers have; a nozzle is more than 10 % off the mean of all; or the nozzles together are more than 10 % off the flow.',
    limits: 'tank 3-4000 L, flow 0.2-120 L/min, speed 1-12 km/h, pressure 0.5-60 bar; nozzles 10 %',
    source: 'nozzles: state publications quoted on Florida study pages; the rest common practice, no source',
    basis: 'common practice',
  },
  check: ({ ledger }) =>
    [...ledger.sprayers.values()].flatMap((sprayer) => {
      const { tank, flow, speed, pressure, nozzles } = sprayer
      const check = nozzles ? checkNozzles(nozzles) : null
      const sum = check ? check.mean * nozzles!.length : 0
      return [
        ...unusual(NAME, sprayer, [
          { path: ['tank'], value: tank, low: 3, high: 4000, unit: 'L', what: 'tank' },
          { path: ['flow'], value: flow, low: 0.2, high: 120, unit: 'L/min', what: 'flow' },
          { path: ['speed'], value: speed, low: 1, high: 12, unit: 'km/h', what: 'speed' },
          { path: ['pressure'], value: pressure, low: 0.5, high: 60, unit: 'bar', what: 'pressure' },
        ]),
        ...(check?.nozzles ?? []).flatMap(({ ok, flow: one, deviation }, index) =>
          ok
            ? []
            : [
                odd(
                  NAME,
                  sprayer,
                  ['nozzles', index],
                  `nozzle ${index + 1} gives ${say(one, 'L/min')}, ${say(Math.abs(deviation) * 100, '%')} off the mean of ${say(check!.mean, 'L/min')}`,
                ),
              ],
        ),
        ...(check && flow !== undefined && exceeds(Math.max(sum / flow, 2 - sum / flow), 1.1)
          ? [
              odd(
                NAME,
                sprayer,
                ['flow'],
                `the flow is ${say(flow, 'L/min')}, but the nozzles come to ${say(sum, 'L/min')}`,
              ),
            ]
          : []),
      ]
    }),
}
