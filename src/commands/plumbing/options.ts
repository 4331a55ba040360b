import { addDays, dayNumber, type IsoDate } from '../../records/date.ts'
import { inUnitsOf, type Quantity, type Range, readRange } from '../../records/quantity.ts'
import { dependsOnSite, inSiteUnits, type SiteWay } from '../../records/typed/site-way.ts'
import { readTypedDate } from '../../records/typed/typed-date.ts'
import type { Env } from './env.ts'
import { UsageError } from './errors.ts'

/** The options of a command line as typed; each method reads one by its name, without the hyphens. */
export abstract class Options {
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

  /** Whether questions may be asked: on a terminal, and not switched off. */
  get mayAsk(): boolean {
    return !this.json && !this.flag('yes') && this.env.inIsTerminal && this.env.outIsTerminal
  }

  /** A quantity typed as an option, in the accepted unit of its kind. */
  quantity(name: string, accepts: readonly string[]): Quantity | undefined {
    const range = this.range(name, accepts)
    if (range && range.low !== range.high) throw new UsageError(`--${name} takes one value, not a range`)
    return range && { value: range.low, unit: range.unit }
  }

  /** The value of a quantity in the one unit that is accepted. */
  value(name: string, unit: string): number | undefined {
    return this.quantity(name, [unit])?.value
  }

  /** The same where nothing makes no sense. */
  above(name: string, unit: string): number | undefined {
    const value = this.value(name, unit)
    if (value !== undefined && !(value > 0)) throw new UsageError(`--${name} must be above 0`)
    return value
  }

  range(name: string, accepts: readonly string[]): Range | undefined {
    const text = this.text(name)
    return text === undefined ? undefined : this.read(name, text, accepts)
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

  /** A number of things that are counted. */
  whole(name: string, low: number, high: number): number | undefined {
    const value = this.number(name, low, high)
    if (value !== undefined && !Number.isInteger(value))
      throw new UsageError(`--${name} takes a whole number`, 'write digits only, like 20')
    return value
  }

  /** Date order, units and diseases of the site. */
  protected abstract siteWay(): SiteWay

  /** The system of units asked for; `uk` is another word for imperial. */
  units(): SiteWay['units'] | undefined {
    const typed = this.text('units')
    return typed === 'uk' ? 'imperial' : (typed as SiteWay['units'] | undefined)
  }

  /** A day typed as an option, as people say it: `2026-06-23`, `yesterday`, `last monday`, `23 june`. */
  date(name: string): IsoDate | undefined {
    const text = this.text(name)
    if (text?.trim().toLowerCase() === 'tomorrow') return addDays(this.env.today(), 1)
    return text === undefined ? undefined : this.dayIn(name, text)
  }

  /** The day of a report that needs no ledger. */
  reportDay(): IsoDate {
    return this.date('as-of') ?? this.env.today()
  }

  /** A day that is planned, seen from the day of the report: `tomorrow`, `sunday`, `in 3 days`. */
  planned(name: string, today: IsoDate): IsoDate | undefined {
    const text = this.text(name)
    return text === undefined ? undefined : this.dayIn(name, text, { today, purpose: 'planned' })
  }

  /** A day inside the value of an option. */
  dayIn(
    name: string,
    text: string,
    from: { today: IsoDate; purpose?: 'planned' } = { today: this.env.today() },
  ): IsoDate {
    const order = /\d[-./]\d/.test(text) && dayNumber(text) === null ? this.siteWay().order : null
    const read = readTypedDate(text, { ...from, order })
    if (read.fault) throw new UsageError(`--${name}: ${read.fault.message}`, read.fault.help)
    return read.date
  }

  /** Reads the quantity of an option. @throws UsageError where it can't be read, with what to write */
  read(name: string, text: string, accepts: readonly string[]): Range {
    const meant = dependsOnSite(text) ? inSiteUnits(text, this.siteWay().units) : text
    const result = readRange(meant, accepts)
    if (!result.fault) return result.range
    const { units } = this.siteWay()
    throw new UsageError(`--${name}: ${result.fault.message}`, inUnitsOf(result.fault.help, units))
  }
}

const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase())
