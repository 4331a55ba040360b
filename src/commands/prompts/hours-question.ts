import { areaOf } from '../../facts/block-size.ts'
import type { Block } from '../../records/kinds/block.ts'
import type { Question } from './question.ts'

type Sized = Block & { id: string }

/** Hours of work on several blocks: one number in all, shared out by area, or one number for each block. */
export function hoursQuestion(blocks: readonly Sized[]): Question {
  const each = blocks.map((_, index) => String(4 - (index % 3))).join(', ')
  return {
    key: 'hours',
    ask: `How many hours? For example 6 in all, or ${each}: one number for each block.`,
    why: 'Hours of all people together. Hours in all are shared out between the blocks by their area.',
    optional: true,
    read(text) {
      const numbers = text
        .replace(/\b(?:hours?|hrs?|h)\b/gi, '')
        .replace(/\b(?:in all|in total|altogether|each)\b/gi, '')
        .trim()
        .split(/[,;]?\s+/)
        .filter((one) => one !== '')
      if (
        numbers.length === 0 ||
        !numbers.every((one) => /^\d+(?:\.\d+)?$/.test(one) && Number(one) <= 10_000)
      )
        return { fault: `Type hours in all, like 6, or one number for each block, like ${each}.` }
      const shares =
        /\beach\b/i.test(text) && numbers.length === 1
          ? blocks.map(() => Number(numbers[0]))
          : sharesOf(numbers.map(Number), blocks)
      if (!shares)
        return {
          fault: `There are ${blocks.length} blocks. Type one number in all, or ${blocks.length} numbers.`,
        }
      return {
        parts: blocks.map(({ id }, index) => ({ option: 'hours', text: String(shares[index]), block: id })),
      }
    },
  }
}

/** Hours of each block, rounded to 0.01 h so that they add up to the total; null where there are too few or too many numbers. */
function sharesOf(numbers: readonly number[], blocks: readonly Sized[]): number[] | null {
  if (numbers.length === blocks.length) return [...numbers]
  if (numbers.length !== 1) return null
  const areas = blocks.map(areaOf)
  const whole = areas.reduce((sum, area) => sum + area, 0)
  let done = 0
  let given = 0
  return areas.map((area) => {
    done += area
    const upTo = Math.round(((numbers[0]! * done) / whole) * 100) / 100
    const own = Math.round((upTo - given) * 100) / 100
    given = upTo
    return own
  })
}
