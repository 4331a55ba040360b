import { type Names, namesOf } from '../../facts/names.ts'
import type { Report, ReportInput } from '../../facts/report.ts'
import type { LedgerFiles } from '../../ledger/read/files.ts'
import { findLedger, NoLedger } from '../../ledger/read/find.ts'
import type { Ledger, Need } from '../../ledger/read/ledger.ts'
import { isBroken, openLedger } from '../../ledger/read/open.ts'
import { nearest } from '../../ledger/read/read-entry.ts'
import { readSite, type Site } from '../../ledger/read/site.ts'
import { writeOwnFile } from '../../ledger/write/own-file.ts'
import { FIRST_YEAR, LAST_YEAR } from '../../records/date.ts'
import { findAllNamed } from '../../records/typed/named.ts'
import { type SiteWay, siteWay } from '../../records/typed/site-way.ts'
import { UserError } from '../../records/user-error.ts'
import type { Paint } from '../../render/colours.ts'
import type { PageOf } from '../../render/html/page.ts'
import { safe } from '../../render/safe.ts'
import { PLAIN, type Style } from '../../render/style.ts'
import { wrap } from '../../render/text.ts'
import type { Env } from './env.ts'
import { BrokenLedger, notOne, UsageError } from './errors.ts'
import { toJson } from './json.ts'
import { Options } from './options.ts'
import { inOwnExamples } from './own-examples.ts'
import { type Place, placeOf } from './place.ts'

/** Which records a report reads; its own season where no seasons are named. */
export type Reads = Partial<Need>

/** Prints a report as text, with the names of the ledger's records. */
export type Printer<Data> = (report: Report<Data>, style: Style, names: Names) => string

/** Loads what draws the inside of a report's page: most runs print none. */
type LoadPage<Data> = () => Promise<{ page: PageOf<Data> }>

/** What a report has besides its text. */
export interface PrintMore<Data> {
  page?: LoadPage<Data>
  /** The exit status, 0 where left out. */
  status?: number
}

/** A command line as typed, with what a command needs to answer it. */
export class Call extends Options {
  /** The ledger, once it was opened. */
  private opened: Ledger | undefined
  private placed: Place | undefined
  /** No colours, until they are loaded for a call that is coloured. */
  paint: Paint = PLAIN

  constructor(
    readonly command: string,
    readonly args: readonly string[],
    values: Readonly<Record<string, unknown>>,
    env: Env,
  ) {
    super(values, env)
  }

  /** Finds the ledger, and the day and season of the report. */
  place(): Place {
    if (this.placed) return this.placed
    // Wrong options are reported before looking for a ledger.
    const season = this.number('season', FIRST_YEAR, LAST_YEAR)
    const typed = { ledger: this.text('ledger'), season, asOf: this.date('as-of') }
    this.placed = placeOf(this.env, typed)
    return this.placed
  }

  /** Reads the ledger from other files than those on the disk. */
  readFrom(files: LedgerFiles): void {
    this.placed = { ...this.place(), files }
  }

  /** Opens the ledger for a report. @throws BrokenLedger where a record that it reads is broken. */
  open(reads: Reads = {}): ReportInput {
    const input = this.openAnyway(reads)
    if (isBroken(input.ledger)) throw new BrokenLedger(input)
    return input
  }

  /** Opens the ledger even where records are broken; the caller checks its findings. */
  openAnyway(reads: Reads = {}): ReportInput {
    const { root, files, asOf, season } = this.place()
    const ledger = openLedger(root, { seasons: [season], history: [], ...reads }, files)
    this.env.progress?.tell('working it out')
    this.env.timings?.lap('reading the ledger')
    const units = this.units()
    if (units) ledger.saidIn = units
    this.opened = ledger
    return { ledger, season, asOf, blocks: this.blocksOf(ledger) }
  }

  private blocksOf(ledger: Ledger): ReportInput['blocks'] {
    const texts = this.texts('block')
    const all = [...ledger.blocks.values()]
    if (texts.length === 0) return all
    const { found, unclear } = findAllNamed(texts.join(', '), all)
    if (!unclear) return found
    const { word, several } = unclear
    const near = nearest(
      word.toLowerCase(),
      all.map(({ id }) => id),
    )
    const { message, help } = notOne('block', word, { several, all })
    throw new UsageError(message, near && several.length < 2 ? `${near}\n  ${help}` : help)
  }

  /** Prints a report as JSON, as text or, with `--html`, as a page, and returns the exit status. */
  async print<Data>(
    report: Report<Data>,
    render: Printer<Data>,
    { page, status = 0 }: PrintMore<Data> = {},
  ): Promise<number> {
    const file = this.text('html')
    const names = namesOf(this.opened)
    if (file !== undefined && page) {
      const printed = render(report, { ...this.style(), paint: PLAIN, columns: 100 }, names)
      await this.writePage(file, report, { page, printed })
    }
    if (this.json) this.env.out(toJson(report))
    else if (file === undefined) {
      const style = this.style()
      this.env.out(render(report, style, names))
      if (this.flag('sources')) this.env.out(await sourcesOf(report.report, style.columns))
    }
    return status
  }

  /** Writes a report as a page into a file, or to stdout where that is `-`. @param page draws its inside. */
  async writePage<Data>(
    file: string,
    report: Report<Data>,
    { page, printed }: { page: LoadPage<Data>; printed: string },
  ): Promise<void> {
    const { PAGE_MARK } = await import('../../render/html/page.ts')
    const { renderPage } = await import('./pages.ts')
    const { units } = this.style()
    const text = renderPage(report, { ...(await page()), printed, ledger: this.opened, units })
    if (file === '-') this.env.out(text, 'data')
    else this.writeFile(file, { text, mark: PAGE_MARK })
  }

  /** Writes a file that rowbook makes anew each time, and says so. @param mark tells it from files of others. */
  writeFile(file: string, { text, mark, holds = '' }: { text: string; mark: string; holds?: string }): void {
    writeOwnFile({ cwd: this.env.cwd, file, text, mark, force: this.flag('force') })
    this.env.err(`Written: ${safe(file)}${holds}\n`)
  }

  /** How to print: in the units typed, else those given or of the ledger here, else metric. */
  style(units?: Style['units']): Style {
    return { columns: this.env.columns, units: this.ownUnits(units), paint: this.paint }
  }

  /** The usage error with its examples in the units of the ledger. */
  inOwnUnits({ message, help }: UsageError): UsageError {
    return new UsageError(message, inOwnExamples(help, this.ownUnits()))
  }

  private ownUnits(given = this.opened?.vineyard.units): Style['units'] {
    const known = this.units() ?? given
    if (known) return known
    try {
      return this.siteHere().units ?? 'metric'
    } catch (error) {
      if (error instanceof UserError) return 'metric'
      throw error
    }
  }

  /** Date order, units and diseases of the site; the defaults where a command needs no ledger and there is none. */
  protected siteWay(): SiteWay {
    const site = this.siteHere()
    return siteWay({ ...site, units: this.units() ?? site.units })
  }

  /** The site of the ledger here; empty where there is none and `--ledger` was not typed. */
  private siteHere(): Partial<Site> {
    try {
      return readSite(findLedger(this.env.cwd, this.text('ledger')))
    } catch (error) {
      if (!(error instanceof NoLedger) || this.text('ledger') !== undefined) throw error
      return {}
    }
  }

  /** Whether colours are wanted, and shown by where it is printed. */
  get coloured(): boolean {
    const { NO_COLOR, FORCE_COLOR, TERM } = this.env.variables
    if (this.values.color === false || NO_COLOR) return false
    if (FORCE_COLOR && FORCE_COLOR !== '0') return true
    return this.env.outIsTerminal && TERM !== 'dumb'
  }
}

/** The source of each figure of a report, a line each. */
async function sourcesOf(report: string, columns: number): Promise<string> {
  const { sourcesOf } = await import('../../reports/explain/everything.ts')
  const lines = sourcesOf(report).map((line) => wrap(line, columns, '  ').replace(/^ {2}/, '- '))
  return lines.length === 0 ? '' : `\nSources\n${lines.join('\n')}\n`
}
