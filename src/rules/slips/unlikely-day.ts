import { judged } from '../../facts/judged.ts'
import { figureText } from '../../facts/sentences.ts'
import { nodeAt } from '../../ledger/read/source.ts'
import { PRACTICE, type Rule } from '../rule.ts'
import { slipsIn, type Usual } from './usual.ts'

const USUAL: Usual = {
  low: ['lowest temperature', -30, 32, '°C'],
  high: ['highest temperature', -20, 45, '°C'],
  rain: ['rain of a day', 0, 250, 'mm'],
}

/** °C by which a day's highest temperature may be over its lowest. */
const MOST_SPREAD = 30

/** mm of rain from which a figure in cm is more likely one in mm. */
const MOST_CM = 20

/** A day of weather read by hand with figures that no vineyard's thermometer or rain gauge shows. */
export const unlikelyDay: Rule = {
  name: 'unlikely-day',
  what: 'Temperatures or rain of a day read by hand are far from usual. Or its lowest and highest are too far apart. Often a sign, a unit or a decimal point is wrong.',
  limits:
    'Usual are: a lowest of -30 to 32 °C; a highest of -20 to 45 °C; up to 30 °C apart; up to 250 mm of rain; over 20 mm is not written in cm.',
  ...PRACTICE,
  check: (input) =>
    slipsIn(judged(input, 'weather'), (slips, { low, high, rain, source }) => {
      slips.compare(USUAL)
      const written = rain !== undefined && rain > MOST_CM ? nodeAt(source.node, ['rain']) : null
      if (written?.kind === 'scalar' && /cm$/.test(written.text))
        slips.odd(
          ['rain'],
          `${written.text} of rain are ${figureText(rain!, 'mm')} in one day`,
          'rain gauges are read in mm: check the unit',
        )
      if (slips.found.length === 0 && low !== undefined && high !== undefined && high - low > MOST_SPREAD)
        slips.odd(
          ['low'],
          `from ${figureText(low, '°C')} to ${figureText(high, '°C')} in one day`,
          'check both, their signs and their unit (C or F)',
        )
    }),
}
