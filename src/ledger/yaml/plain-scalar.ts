/** Texts with a special meaning: integers and decimals, 0o17, 0x1F, the words for null and booleans, .inf, .nan. */
const MORE_THAN_TEXT =
  /^(?:[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|0o[0-7]+|0x[0-9a-fA-F]+|~|null|Null|NULL|true|True|TRUE|false|False|FALSE|[-+]?\.(?:inf|Inf|INF)|\.nan|\.NaN|\.NAN)$/
const WHOLE = /^[-+]?[0-9]+$/

/**
 * The value of an unquoted scalar by the core schema of YAML 1.2.2 (Ben-Kiki, Evans and döt Net 2021, section
 * 10.3.2).
 * @returns the value; not finite where the text is `.inf`, `.nan` or too large a number.
 */
export function plainScalar(text: string): string | number | boolean | null {
  if (!MORE_THAN_TEXT.test(text)) return text
  switch (text[0]) {
    case '~':
    case 'n':
    case 'N':
      return null
    case 't':
    case 'T':
      return true
    case 'f':
    case 'F':
      return false
  }
  if (WHOLE.test(text)) return Number.parseInt(text, 10)
  if (text[1] === 'o') return Number.parseInt(text.slice(2), 8)
  if (text[1] === 'x') return Number.parseInt(text.slice(2), 16)
  return Number.parseFloat(text)
}
