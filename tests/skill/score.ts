/** An answer in whole days; nulls where it is open or untold. */
export interface Answer {
  earliest: number | null
  likely: number | null
  latest: number | null
}

export interface Scored {
  told: boolean
  held: boolean
  open: boolean
  width: number
  error: number
  score: number
}

/** Days after the day of looking at which an open end is scored. */
export const OPEN_END = 60

/** Interval score of a 90 % interval: Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359-378, section 6.2. */
export function scoreOf(answer: Answer, { truth, asOf }: { truth: number; asOf: number }): Scored {
  const { earliest, likely } = answer
  if (earliest === null || likely === null)
    return { told: false, held: false, open: false, width: NaN, error: NaN, score: NaN }
  const open = answer.latest === null
  const latest = answer.latest ?? Math.max(asOf + OPEN_END, likely)
  const width = latest - earliest
  const outside = Math.max(0, earliest - truth) + (open ? 0 : Math.max(0, truth - latest))
  return {
    told: true,
    held: outside === 0,
    open,
    width,
    error: Math.abs(likely - truth),
    score: width + (2 / 0.1) * outside,
  }
}

export interface Summary {
  n: number
  told: number
  held: number
  open: number
  width: number
  error: number
  score: number
}

export function summaryOf(all: readonly Scored[]): Summary {
  const told = all.filter((one) => one.told)
  const mean = (of: (one: Scored) => number) => told.reduce((sum, one) => sum + of(one), 0) / told.length
  const widths = told.map(({ width }) => width).sort((a, b) => a - b)
  return {
    n: all.length,
    told: told.length / all.length,
    held: mean(({ held }) => Number(held)),
    open: mean(({ open }) => Number(open)),
    width: widths[widths.length >> 1] ?? Number.NaN,
    error: mean(({ error }) => error),
    score: mean(({ score }) => score),
  }
}
