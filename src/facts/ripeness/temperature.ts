import type { correctForTemperature } from '../../agronomy/ripening/refractometer.ts'

type Step = ReturnType<typeof correctForTemperature>

/** How a temperature correction is known and what would make it sure, to stand behind "by the OIV table". */
export function howKnown({ basis }: Pick<Step, 'basis'>): string {
  if (basis !== 'memory') return ''
  return '. This correction is from memory, within 0.03 Brix. For one figure, let the juice come to 20 °C and read again'
}
