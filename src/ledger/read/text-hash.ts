import { createHash } from 'node:crypto'

/** A hash of texts; their lengths stand behind them, so that no two lists come to the same. */
export const hashOfTexts = (texts: readonly string[]): string =>
  createHash('sha256')
    .update(texts.join('\n'))
    .update(texts.map(({ length }) => length).join())
    .digest('base64')
