import type { Seasonal } from '../../ledger/read/ledger.ts'
import { DISEASES } from '../../records/target.ts'
import type { Column, Columns } from './columns.ts'
import { type Table, table } from './table.ts'

const head = <Row extends Seasonal<{ date: string }>>(c: Columns<Row>): Column<Row>[] => [
  c.integer('season', ({ season }) => season),
  c.date('date', (row) => row.date),
]

const tail = <Row extends Seasonal<{ date: string; note?: string | undefined }>>(
  c: Columns<Row>,
): Column<Row>[] => [c.text('note', ({ note }) => note), c.text('file', ({ source }) => source.at.file)]

/** The tables of what happened in a season; a spray has one row for each product in the tank. */
export const SEASON_TABLES: readonly Table[] = [
  table(
    'sprays',
    (ledger) =>
      ledger.sprays.flatMap((spray) =>
        spray.products.map((part) => ({ ...spray, source: spray.source, part })),
      ),
    (c) => [
      ...head(c),
      ...c.times((spray) => spray.time),
      c.json('blocks', ({ blocks }) => blocks),
      ...c.range('rows', ({ rows }) => rows),
      c.integer('vines', ({ vines }) => vines),
      c.number('share_pct', ({ share }) => share),
      c.text('sprayer', ({ sprayer }) => sprayer),
      ...c.quantity('water', ({ water }) => water),
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
      c.text('operator', ({ operator }) => operator),
      c.text('certificate', ({ certificate }) => certificate),
      c.text('method', ({ method }) => method),
      ...tail(c),
    ],
  ),
  table(
    'scouting',
    (ledger) =>
      ledger.scouting.flatMap((walk) =>
        DISEASES.flatMap((disease) => {
          const found = walk.found[disease]
          return found ? [{ ...walk, source: walk.source, disease, found }] : []
        }),
      ),
    (c) => [
      ...head(c),
      c.text('block', ({ block }) => block),
      c.text('disease', ({ disease }) => disease),
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
      c.integer('stage', ({ stage }) => stage),
      ...c.range('rows', ({ rows }) => rows),
      c.text('who', ({ who }) => who),
      ...tail(c),
    ],
  ),
  table(
    'samples',
    (ledger) => ledger.samples,
    (c) => [
      ...head(c),
      c.text('block', ({ block }) => block),
      c.integer('berries', ({ berries }) => berries),
      c.text('of', ({ of }) => of),
      ...c.readings('brix', ({ brix }) => brix),
      ...c.readings('oechsle', ({ oechsle }) => oechsle),
      ...c.readings('baume', ({ baume }) => baume),
      ...c.readings('density', ({ density }) => density),
      c.number('temperature_c', ({ temperature }) => temperature),
      c.truth('compensated', ({ compensated }) => compensated),
      ...c.readings('ph', ({ ph }) => ph),
      ...c.readings('ta_g_per_l', ({ ta }) => ta),
      c.text('ta_as', ({ ta_as }) => ta_as),
      c.number('end_point', ({ end_point }) => end_point),
      c.json('titration', ({ titration }) => titration),
      c.number('berry_weight_g', ({ berry_weight }) => berry_weight),
      c.text('seeds', ({ seeds }) => seeds),
      c.text('skins', ({ skins }) => skins),
      c.text('taste', ({ taste }) => taste),
      c.truth('fermenting', ({ fermenting }) => fermenting),
      c.text('who', ({ who }) => who),
      c.text('instrument', ({ instrument }) => instrument),
      ...tail(c),
    ],
  ),
  table(
    'stages',
    (ledger) => ledger.stages,
    (c) => [
      ...head(c),
      c.text('block', ({ block }) => block),
      c.integer('stage', ({ stage }) => stage),
      c.number('share_pct', ({ share }) => share),
      c.number('shoots_cm', ({ shoots }) => shoots),
      c.text('who', ({ who }) => who),
      ...tail(c),
    ],
  ),
  table(
    'crop',
    (ledger) => ledger.crop,
    (c) => [
      ...head(c),
      c.text('block', ({ block }) => block),
      ...c.readings('bunches_per_vine', ({ bunches_per_vine }) => bunches_per_vine),
      ...c.readings('bunch_weight_g', ({ bunch_weight }) => bunch_weight),
      c.text('at', ({ at }) => at),
      ...c.range('rows', ({ rows }) => rows),
      c.text('part', ({ part }) => part),
      c.integer('vines', ({ vines }) => vines),
      c.text('who', ({ who }) => who),
      ...tail(c),
    ],
  ),
  table(
    'picks',
    (ledger) => ledger.picks,
    (c) => [
      ...head(c),
      ...c.times((pick) => pick.time),
      c.text('block', ({ block }) => block),
      c.number('weight_kg', ({ weight }) => weight),
      c.integer('people', ({ people }) => people),
      c.number('hours', ({ hours }) => hours),
      c.number('brix', ({ brix }) => brix),
      c.number('ph', ({ ph }) => ph),
      c.number('ta_g_per_l', ({ ta }) => ta),
      c.number('sorted_out_kg', ({ sorted_out }) => sorted_out),
      c.integer('crates', ({ crates }) => crates),
      c.number('juice_l', ({ juice }) => juice),
      c.number('rest_pct', ({ rest }) => rest),
      ...tail(c),
    ],
  ),
  table(
    'work',
    (ledger) => ledger.work,
    (c) => [
      ...head(c),
      ...c.times((work) => work.time),
      c.text('block', ({ block }) => block),
      c.text('job', ({ job }) => job),
      c.number('hours', ({ hours }) => hours),
      c.integer('people', ({ people }) => people),
      ...c.range('rows', ({ rows }) => rows),
      c.number('water_mm', ({ water }) => water),
      c.number('prunings_kg', ({ prunings }) => prunings),
      c.text('who', ({ who }) => who),
      ...tail(c),
    ],
  ),
  table(
    'weather',
    (ledger) => ledger.weather,
    (c) => [
      ...head(c),
      c.number('low_c', ({ low }) => low),
      c.number('high_c', ({ high }) => high),
      c.number('rain_mm', ({ rain }) => rain),
      c.text('who', ({ who }) => who),
      ...tail(c),
    ],
  ),
]
