import type { Incubation } from '../../facts/disease/downy-incubations.ts'
import type { Oospores } from '../../facts/disease/downy-oospores.ts'
import { upperFirst } from '../../facts/sentences.ts'
import { addDays } from '../../records/date.ts'
import { shortDate, shortSpan, spokenDate } from '../../records/spoken-date.ts'
import { figure } from '../../render/figure.ts'
import { counted, groupDigits } from '../../render/text.ts'
import type { WorstFortnight } from './worst-fortnight.ts'

/** The worst two weeks so far, and their weather. */
export function worstLine(worst: WorstFortnight): string {
  const { from, to, powdery, downyDays, botrytisDays, blackRotDays, rain, temperature } = worst
  const wet = rain === null ? 'rain not all known' : `${figure(rain, 0)} mm of rain`
  const warm = temperature === null ? '' : ` at ${figure(temperature, 0)} °C`
  const index = powdery === null ? '' : `Powdery index up to ${powdery}. `
  return `Worst fortnight so far, ${shortSpan(from, to)}: ${wet}${warm}. ${index}Downy primary infection was possible on ${counted(downyDays, 'day')}, black rot on ${blackRotDays}. Botrytis infection risk was moderate or high on ${botrytisDays}.`
}

/** Infections whose oil spots are due about now or still to come. */
export function dueLines(all: readonly Incubation[], asOf: string): string[] {
  const near = all.filter(({ latest }) => latest === null || latest >= addDays(asOf, -7))
  return near.map(({ from, to, earliest, latest, progress, missing }) => {
    const what = `Downy mildew of ${shortSpan(from, to)}`
    const lack = missing > 0 ? `; ${counted(missing, 'hour')} without temperature, so it may be sooner` : ''
    if (earliest !== null && latest !== null)
      return `${what}: oil spots due between ${spokenDate(earliest)} and ${spokenDate(latest)}${lack}.`
    if (earliest !== null)
      return `${what}: oil spots due from ${spokenDate(earliest)}; slowest incubation ${figure(progress.slow * 100, 0)} % done${lack}.`
    return `${what}: incubation ${figure(progress.slow * 100, 0)} to ${figure(progress.fast * 100, 0)} % done${lack}.`
  })
}

/** Whether the spores of downy mildew's winter are ripe. */
export function oosporeLine({ from, sum, ripe, ripeOn, why }: Oospores): string {
  if (sum === null || from === null)
    return `Downy oospores: not known whether they are ripe. ${upperFirst(why ?? '')}.`
  const open = why === null ? '' : `; ${why}`
  const state =
    ripe === null
      ? 'possibly ripe'
      : ripe
        ? ripeOn
          ? `ripe since ${spokenDate(ripeOn)}`
          : 'ripe'
        : 'not ripe yet'
  return `Downy oospores: ${state}, ${groupDigits(figure(sum, 0))} °C-days above 8 °C since ${shortDate(from)}; ripe above 170${open}.`
}
