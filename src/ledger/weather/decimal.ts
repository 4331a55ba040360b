const ZERO = 48
const NINE = 57

/**
 * Reads a plain decimal number (`-3.25`, or `-3,25` with a comma as its mark).
 * @returns NaN where the text is anything else, an exponent or a second mark included
 */
export function readDecimal(text: string, mark: '.' | ','): number {
  const length = text.length
  const first = text.charCodeAt(0)
  const start = first === 45 || first === 43 ? 1 : 0
  if (start === length || length > 20) return Number.NaN
  const markCode = mark.charCodeAt(0)
  let markAt = -1
  for (let at = start; at < length; at++) {
    const code = text.charCodeAt(at)
    if (code === markCode && markAt < 0) markAt = at
    else if (code < ZERO || code > NINE) return Number.NaN
  }
  if (markAt >= 0 && length - start === 1) return Number.NaN
  return Number(mark === ',' && markAt >= 0 ? text.replace(',', '.') : text)
}
