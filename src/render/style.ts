import { Chalk, type ChalkInstance } from 'chalk'

/** How a report is to be printed. */
export interface Style {
  columns: number
  units: 'metric' | 'us' | 'imperial'
  paint: Paint
}

/** Colours by meaning; they only repeat what a word says. */
export interface Paint {
  bad: (text: string) => string
  doubtful: (text: string) => string
  good: (text: string) => string
  faint: (text: string) => string
  strong: (text: string) => string
}

const PLAIN: Paint = { bad: String, doubtful: String, good: String, faint: String, strong: String }

/** The colours, or none. */
export function paintFor(coloured: boolean): Paint {
  if (!coloured) return PLAIN
  const chalk: ChalkInstance = new Chalk({ level: 1 })
  return { bad: chalk.red, doubtful: chalk.yellow, good: chalk.green, faint: chalk.dim, strong: chalk.bold }
}
