/**
 * Rain of a day in words, as a quantity; null where it is none of them. A trace, too little to measure, is written as
 * the most that it can be: 0.1 mm (WMO-No. 8, Guide to Instruments, 6.1.2), 0.01 in by gauges in inches (US National
 * Weather Service); both from memory.
 */
export function typedRain(text: string, units: 'metric' | 'us' | 'imperial'): string | null {
  const word = text.trim().toLowerCase()
  const [trace, depth] = units === 'metric' ? [0.1, 'mm'] : [0.01, 'in']
  if (/^(?:none|no|nil|dry|no rain)$/.test(word)) return `0 ${depth}`
  return /^(?:t|tr|traces?)$/.test(word) ? `${trace} ${depth}` : null
}
