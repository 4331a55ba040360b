import type { IsoDate } from '../../records/date.ts'
import type { Quantity, Range } from '../../records/quantity.ts'
import { type DayOrder, readSaidDate } from '../../records/said-date.ts'
import type { Env } from './env.ts'
import { UsageError } from './errors.ts'

/** The options of a command line as typed; each method reads one by its name, without the hyphens. */
export class Options {
  constructor(
    readonly values: Readonly<Record<string, unknown>>,
    readonly env: Env,
  ) {}

  flag(name: string): boolean {
    return this.values[camel(name)] === true
  }

  text(name: string): string | undefined {
    const value = this.values[camel(name)]
    return typeof value === 'string' ? value : undefined
  }

  texts(name: string): string[] {
    const value = this.values[camel(name)]
    return Array.isArray(value) ? value.map(String) : typeof value === 'string' ? [value] : []
  }

  get json(): boolean {
    return this.flag('json')
  }

  /** A quantity typed as an option, in the accepted unit of its kind. */
  async quantity(name: string, accepts: readonly string[]): Promise<Quantity | undefined> {
    const range = await this.range(name, accepts)
    if (range && range.low !== range.high) throw new UsageError(`--${name} takes one value, not a range`)
    return range && { value: range.low, unit: range.unit }
  }

  async range(name: string, accepts: readonly string[]): Promise<Range | undefined> {
    const text = this.text(name)
    return text === undefined ? undefined : readOption(name, text, accepts)
  }

  number(name: string, low = -Infinity, high = Infinity): number | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    if (!/^[+-]?(?:\d+(?:\.\d+)?|\.\d+)$/.test(text.trim())) {
      const point = /^[+-]?\d+,\d+$/.test(text.trim())
        ? `write a point: ${text.trim().replace(',', '.')}`
        : 'write digits, with a point for decimals'
      throw new UsageError(`--${name} takes a plain number, not \`${text}\``, point)
    }
    const value = Number(text)
    if (value < low || value > high)
      throw new UsageError(`--${name} ${text} is outside what is possible, ${low} to ${high}`)
    return value
  }

  /** Which of two numbers in a day is the month; null as long as the site isn't known. */
  protected order: DayOrder = null

  /** A day typed as an option, as people say it: `2026-06-23`, `yesterday`, `last monday`, `23 june`. */
  date(name: string): IsoDate | undefined {
    return this.day(name, { today: this.env.today() })
  }

  /** A day that is planned, seen from the day of the report: `tomorrow`, `sunday`, `in 3 days`. */
  planned(name: string, today: IsoDate): IsoDate | undefined {
    return this.day(name, { today, said: 'planned' })
  }

  private day(name: string, from: { today: IsoDate; said?: 'planned' }): IsoDate | undefined {
    const text = this.text(name)
    if (text === undefined) return undefined
    const read = readSaidDate(text, { ...from, order: this.order })
    if (read.fault) throw new UsageError(`--${name}: ${read.fault.message}`, read.fault.help)
    return read.date
  }
}

/** Reads an option's quantity; a fault becomes a usage error with its way out. */
export async function readOption(name: string, text: string, accepts: readonly string[]): Promise<Range> {
  const { readRange } = await import('../../records/quantity.ts')
  const result = readRange(text, accepts)
  if (result.fault) throw new UsageError(`--${name}: ${result.fault.message}`, result.fault.help)
  return result.range
}

const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase())
