import { field } from './field.ts'

/** Kinds of wine that the fruit is grown for; each is picked in its own range. */
const STYLES = ['sparkling', 'white', 'rosé', 'red', 'dessert'] as const

export type WineStyle = (typeof STYLES)[number]

/** The wine that a block or a variety is for. */
export const style = () =>
  field(
    (value, refuse): WineStyle => {
      const word = String(value).trim().toLowerCase()
      const known = STYLES.find((one) => one === word || plain(one) === word)
      return (
        known ??
        refuse('unknown-word', `\`${String(value)}\` is no style of wine`, `write ${STYLES.join(', ')}`)
      )
    },
    {
      type: 'string',
      enum: [...STYLES, 'rose'],
      description: 'what wine the fruit is for, which sets the usual ranges',
    },
  )

const plain = (word: string) => word.normalize('NFD').replace(/\p{M}/gu, '')
