import { windBand } from '../../agronomy/spraying/spray-weather.ts'
import { judged } from '../../facts/judged.ts'
import { say } from '../../facts/say.ts'
import { findingAt, type Rule } from '../rule.ts'

/** Sprayed in air that hardly moves. */
export const stillAir: Rule = {
  name: 'still-air',
  about: {
    what: 'The wind was below 1 m/s. Fine drops hang in still air. They may drift far in an inversion, which is common from an hour or two before sunset to an hour after sunrise.',
    limits: '1 m/s',
    source: 'Waikato Regional Council plan, chart 6.2.9; GRDC Spray Application Manual, module 10.8, 2025',
    basis: 'read',
  },
  check: (book) =>
    judged(book, 'sprays').flatMap((spray) => {
      const wind = spray.weather?.wind
      if (wind === undefined || windBand(wind) !== 'still') return []
      return [
        findingAt(spray, ['weather', 'wind'], {
          name: 'still-air',
          level: 'hint',
          message: `wind of ${say(wind, 'm/s')}: fine drops hang in still air`,
          help: 'look for an inversion (smoke or mist that lies flat) before spraying in still air',
        }),
      ]
    }),
}
