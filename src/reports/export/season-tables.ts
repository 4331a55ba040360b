import type { Ledger, Seasonal } from '../../ledger/read/ledger.ts'
import { DISEASES } from '../../records/disease.ts'
import { type Column, type Columns, type Table, table } from './table.ts'

/** A table of entries: season and day, columns of their own, the note, and the file that they are in. */
const entries = <Row extends Seasonal<{ date: string; note?: string | undefined }>>(
  name: string,
  rowsOf: (ledger: Ledger) => Iterable<Row>,
  columnsOf: (columns: Columns<Row>) => readonly Column<Row>[],
): Table =>
  table(name, rowsOf, (c: Columns<Row>) => [
    c.integer('season', ({ season }) => season),
    c.date('date', ({ date }) => date),
    ...columnsOf(c),
    c.text('note', ({ note }) => note),
    c.text('file', ({ source }) => source.at.file),
  ])

/** The tables of what happened in a season; a spray has one row for each product in the tank. */
export const SEASON_TABLES: readonly Table[] = [
  entries(
    'sprays',
    (ledger) =>
      ledger.sprays.flatMap((spray) =>
        spray.products.map((part) => ({ ...spray, source: spray.source, part })),
      ),
    (c) => [
      ...c.times((spray) => spray.time),
      ...c.own({ blocks: 'json', rows: 'range', vines: 'integer' }),
      c.number('share_pct', ({ share }) => share),
      ...c.own({ sprayer: 'text', water: 'quantity' }),
      c.number('dilute_l_per_ha', ({ dilute }) => dilute),
      c.text('product', ({ part }) => part.product),
      ...c.quantity('rate', ({ part }) => part.rate),
      ...c.quantity('amount', ({ part }) => part.amount),
      ...c.quantity('concentration', ({ part }) => part.concentration),
      c.json('against', ({ part }) => part.for),
      c.integer('stage', ({ stage }) => stage),
      c.number('wind_m_per_s', ({ weather }) => weather?.wind),
      c.text('wind_from', ({ weather }) => weather?.from),
      c.number('temperature_c', ({ weather }) => weather?.temperature),
      c.number('humidity_pct', ({ weather }) => weather?.humidity),
      c.text('sky', ({ weather }) => weather?.sky),
      ...c.own({ operator: 'text', certificate: 'text', method: 'text' }),
      c.text('cleared_on', ({ cleared }) => cleared?.on),
      c.text('cleared_by', ({ cleared }) => cleared?.by),
      c.text('cleared_pick_from', ({ cleared }) => cleared?.pick_from),
      c.text('cleared_enter_from', ({ cleared }) => cleared?.enter_from),
    ],
  ),
  entries(
    'scouting',
    (ledger) =>
      ledger.scouting.flatMap((walk) =>
        DISEASES.flatMap((disease) => {
          const found = walk.found[disease]
          return found ? [{ ...walk, source: walk.source, disease, found }] : []
        }),
      ),
    (c) => [
      ...c.own({ block: 'text', disease: 'text' }),
      c.integer('bunches_looked_at', ({ looked_at }) => looked_at.bunches),
      c.integer('bunches', ({ found }) => found.bunches),
      c.integer('leaves_looked_at', ({ looked_at }) => looked_at.leaves),
      c.integer('leaves', ({ found }) => found.leaves),
      c.integer('shoots_looked_at', ({ looked_at }) => looked_at.shoots),
      c.integer('shoots', ({ found }) => found.shoots),
      c.integer('vines_looked_at', ({ looked_at }) => looked_at.vines),
      c.integer('vines', ({ found }) => found.vines),
      c.number('severity_pct', ({ found }) => found.severity),
      c.json('classes', ({ found }) => found.classes),
      c.json('scored', ({ found }) => found.scored),
      ...c.range('found_rows', ({ found }) => found.rows),
      c.text('where', ({ found }) => found.where),
      ...c.own({ stage: 'integer', rows: 'range', who: 'text' }),
    ],
  ),
  entries(
    'samples',
    (ledger) => ledger.samples,
    (c) => [
      ...c.own({
        block: 'text',
        berries: 'integer',
        of: 'text',
        brix: 'readings',
        oechsle: 'readings',
        baume: 'readings',
        density: 'readings',
      }),
      c.number('temperature_c', ({ temperature }) => temperature),
      ...c.own({ compensated: 'truth', ph: 'readings' }),
      ...c.readings('ta_g_per_l', ({ ta }) => ta),
      ...c.own({ ta_as: 'text', end_point: 'number', titration: 'json' }),
      c.number('berry_weight_g', ({ berry_weight }) => berry_weight),
      ...c.own({
        seeds: 'text',
        skins: 'text',
        taste: 'text',
        fermenting: 'truth',
        who: 'text',
        instrument: 'text',
      }),
    ],
  ),
  entries(
    'stages',
    (ledger) => ledger.stages,
    (c) => [
      ...c.own({ block: 'text', stage: 'integer' }),
      c.number('share_pct', ({ share }) => share),
      c.number('shoots_cm', ({ shoots }) => shoots),
      c.text('who', ({ who }) => who),
    ],
  ),
  entries(
    'crop',
    (ledger) => ledger.crop,
    (c) => [
      ...c.own({ block: 'text', bunches_per_vine: 'readings' }),
      ...c.readings('bunch_weight_g', ({ bunch_weight }) => bunch_weight),
      ...c.own({ at: 'text', rows: 'range', part: 'text', vines: 'integer', who: 'text' }),
    ],
  ),
  entries(
    'picks',
    (ledger) => ledger.picks,
    (c) => [
      ...c.times((pick) => pick.time),
      c.text('block', ({ block }) => block),
      c.number('weight_kg', ({ weight }) => weight),
      ...c.own({ people: 'integer', hours: 'number', brix: 'number', ph: 'number' }),
      c.number('ta_g_per_l', ({ ta }) => ta),
      c.number('sorted_out_kg', ({ sorted_out }) => sorted_out),
      c.integer('crates', ({ crates }) => crates),
      c.number('juice_l', ({ juice }) => juice),
      c.number('rest_pct', ({ rest }) => rest),
    ],
  ),
  entries(
    'work',
    (ledger) => ledger.work,
    (c) => [
      ...c.times((work) => work.time),
      ...c.own({ block: 'text', job: 'text', hours: 'number', people: 'integer', rows: 'range' }),
      c.number('water_mm', ({ water }) => water),
      c.number('prunings_kg', ({ prunings }) => prunings),
      c.text('who', ({ who }) => who),
    ],
  ),
  entries(
    'weather',
    (ledger) => ledger.weather,
    (c) => [
      c.number('low_c', ({ low }) => low),
      c.number('high_c', ({ high }) => high),
      c.number('rain_mm', ({ rain }) => rain),
      c.text('who', ({ who }) => who),
    ],
  ),
]
