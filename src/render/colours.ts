import { Chalk } from 'chalk'

const chalk = new Chalk({ level: 1 })

/** The colours of a terminal; a module of its own, since most answers are printed without. */
export const COLOURS: Paint = {
  bad: chalk.red,
  doubtful: chalk.yellow,
  good: chalk.green,
  faint: chalk.dim,
  strong: chalk.bold,
}

/** Colours by meaning; they only repeat what a word says. */
export type Paint = Record<'bad' | 'doubtful' | 'good' | 'faint' | 'strong', (text: string) => string>
