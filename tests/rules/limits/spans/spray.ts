import { SPRAYS, spray } from '../both-sides.ts'
import type { Row } from './row.ts'

const sprayed = (text: string) => ({
  [SPRAYS]: spray({
    products: ['product: sulphur, rate: 3 kg/ha, for: powdery'],
    water: /water: (.*)/.exec(text)?.[1] ?? '300 L/ha',
    more: text.startsWith('water') ? '' : `  ${text}\n`,
  }),
})
const weather = (text: string) => sprayed(`weather: { ${text} }`)
export const SPRAY_ROWS: Row[] = [
  ['water', sprayed, ['water: 40 L/ha', 'water: 2500 L/ha'], ['water: 39 L/ha', 'water: 2501 L/ha']],
  ['time', sprayed, ['time: 05:00-05:03', 'time: 05:00-19:00'], ['time: 05:00-05:02', 'time: 05:00-19:01']],
  [
    'temperature',
    weather,
    ['temperature: 1 C', 'temperature: 36 C'],
    ['temperature: 0.9 C', 'temperature: 36.1 C'],
  ],
  ['humidity', weather, ['humidity: 20 %', 'humidity: 100 %'], ['humidity: 19 %']],
  ['share', sprayed, ['share: 2 %'], ['share: 1.9 %']],
  ['dilute', sprayed, ['dilute: 270 L/ha', 'dilute: 5000 L/ha'], ['dilute: 269 L/ha', 'dilute: 5001 L/ha']],
]
