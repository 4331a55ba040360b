// The tokens of the plain subset of YAML that `fast-yaml.ts` reads.

/** Left to the full reader: control characters, tabs, unusual spaces, direction marks, absurd indentation. */
export const DOUBTFUL =
  /[\0-\x09\x0b\x0c\x0e-\x1f\x7f-\xa0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff\ufffe\uffff]|\r(?!\n)| {100}/

/** A key: an ASCII word of letters, digits, `_` and `-`, and its colon. */
export const KEY = /\w[\w-]*:(?=[ \r\n]|$)/y

// Comments and scalars with an opening bracket are left to the full reader, which reports an open bracket.
export const BLANK_LINES = /(?: *(?:#[^\r\n[{]*)?\r?\n)*/y
export const LAST_COMMENT = /#[^\r\n[{]*$/y
export const REST_OF_LINE = / *(?: #[^\r\n[{]*)?(?:\r?\n|$)/y
export const DOUBLE_QUOTED = /"[^"\\\r\n[{]*"/y
export const SINGLE_QUOTED = /'(?:[^'\r\n[{]|'')*'/y

// A plain scalar begins with a letter, a digit, or a sign or point before a digit: others may have a meaning in YAML.
const PLAIN_START = String.raw`(?:[A-Za-z0-9\u0080-\uffff]|[-+]?\.?(?=[0-9]))`
export const BLOCK_PLAIN = new RegExp(`${PLAIN_START}(?: *(?:[^\\r\\n :#[{]|:(?![ \\r\\n]|$)|(?<! )#))*`, 'y')
export const FLOW_PLAIN = new RegExp(`${PLAIN_START}(?: *(?:[^\\r\\n :#[\\]{},]|:(?=[\\w-])|(?<! )#))*`, 'y')
export const FLOW_SPACE = /[ \r\n]*/y

export const RETURN = 13
export const NEWLINE = 10
export const SPACE = 32
export const QUOTE = 34
export const HASH = 35
export const APOSTROPHE = 39
export const COMMA = 44
export const DASH = 45
export const OPEN_LIST = 91
export const CLOSE_LIST = 93
export const OPEN_MAP = 123
export const CLOSE_MAP = 125
