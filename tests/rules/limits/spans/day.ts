import type { Row } from './row.ts'

const day = (reading: string) => ({
  'seasons/2026/weather.yaml': `- { date: 2026-05-14, ${reading} }\n`,
})
export const DAYS: Row[] = [
  ['lowest', day, ['low: -30 C', 'low: 32 C'], ['low: -30.1 C', 'low: 32.1 C']],
  ['highest', day, ['high: -20 C', 'high: 45 C', 'high: 113 F'], ['high: -20.1 C', 'high: 45.1 C']],
  ['apart', day, ['low: -9 C, high: 21 C'], ['low: -12 C, high: 21 C']],
  ['rain in cm', day, ['rain: 2 cm', 'rain: 21 mm'], ['rain: 2.1 cm']],
  ['rain', day, ['rain: 250 mm', 'rain: 0.5 in'], ['rain: 251 mm', 'rain: 70 cm', 'rain: 11 in']],
]
