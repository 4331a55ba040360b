import type { correctForTemperature } from '../../agronomy/ripening/refractometer.ts'

type Step = ReturnType<typeof correctForTemperature>

/** How a temperature correction is known and what would make it sure, to stand behind "by the OIV table". */
export function howKnown({ basis, between }: Pick<Step, 'basis' | 'between'>): string {
  const wayOut = 'for one figure, let the juice come to 20 °C and read again'
  if (basis === 'memory') return `; this row is from memory, within 0.03 Brix; ${wayOut}`
  if (!between) return ''
  return `; rowbook has its rows for ${between[0]} °C and ${between[1]} °C and none between; ${wayOut}`
}
