import { areaOf, vinesOf } from '../../facts/block-size.ts'
import { contentOf, isCopper } from '../../facts/spraying/actives.ts'
import { type Application, applicationsOf } from '../../facts/spraying/applications.ts'
import { copperSum } from '../../facts/spraying/copper.ts'
import { daysBeforeHarvest } from '../../facts/spraying/label.ts'
import { type Table, table } from './table.ts'

/** The tables of what stands for a thing: the site, blocks, varieties, products with their actives, sprayers. */
export const STANDING_TABLES: readonly Table[] = [
  table(
    'vineyards',
    (ledger) => [ledger.vineyard],
    (c) => [
      ...c.own({
        name: 'text',
        latitude: 'number',
        longitude: 'number',
        timezone: 'text',
        season_starts: 'text',
      }),
      c.number('copper_limit_season_kg_per_ha', ({ limits }) => limits?.copper?.per_season),
      c.number('copper_limit_rolling_kg_per_ha', ({ limits }) => limits?.copper?.rolling),
      c.number('copper_limit_years', ({ limits }) => limits?.copper?.years),
    ],
  ),
  table(
    'blocks',
    (ledger) => [...ledger.blocks.values()],
    (c) => [
      c.text('block', ({ id }) => id),
      ...c.own({ name: 'text', variety: 'text' }),
      c.number('area_ha', areaOf),
      c.number('area_written_ha', ({ area }) => area),
      c.integer('rows', ({ rows }) => rows),
      c.number('row_length_m', ({ row_length }) => row_length),
      c.number('row_spacing_m', ({ row_spacing }) => row_spacing),
      c.number('vine_spacing_m', ({ vine_spacing }) => vine_spacing),
      c.integer('missing', ({ missing }) => missing),
      c.integer('vines_written', ({ vines }) => vines),
      c.integer('vines', (block) => vinesOf(block).alive),
      c.integer('planted', ({ planted }) => planted),
      c.number('canopy_height_m', ({ canopy }) => canopy?.height),
      c.number('canopy_width_m', ({ canopy }) => canopy?.width),
      c.text('style', ({ style }) => style),
      ...c.range('target_brix', ({ targets }) => targets?.brix),
      ...c.range('target_ta_g_per_l', ({ targets }) => targets?.ta),
      ...c.range('target_ph', ({ targets }) => targets?.ph),
      ...c.range('target_yield_kg_per_ha', ({ targets }) => targets?.yield),
      ...c.own({ thresholds: 'json', boundary: 'text', location: 'text', note: 'text' }),
    ],
  ),
  table(
    'varieties',
    (ledger) => [...ledger.varieties.values()],
    (c) => [
      c.text('variety', ({ id }) => id),
      ...c.own({ name: 'text', colour: 'text', susceptibility: 'json', style: 'text' }),
      ...c.range('target_brix', ({ targets }) => targets?.brix),
      ...c.range('target_ta_g_per_l', ({ targets }) => targets?.ta),
      ...c.range('target_ph', ({ targets }) => targets?.ph),
      ...c.range('after_veraison_d', ({ after_veraison }) => after_veraison),
      ...c.own({ heat: 'json', thresholds: 'json', note: 'text' }),
    ],
  ),
  table(
    'products',
    (ledger) => [...ledger.products.values()],
    (c) => [
      c.text('product', ({ id }) => id),
      ...c.own({ name: 'text', form: 'text', kind: 'text', nature: 'text' }),
      c.text('authorisation', ({ authorisation }) => authorisation?.number),
      c.date('authorised_from', ({ authorisation }) => authorisation?.from),
      c.date('authorised_until', ({ authorisation }) => authorisation?.until),
      c.json('uses', ({ uses }) => uses),
      ...c.range('water_l_per_ha', ({ water }) => water),
      c.number('before_harvest_d', ({ before_harvest }) => before_harvest),
      c.number('re_entry_h', ({ re_entry }) => (typeof re_entry === 'number' ? re_entry : undefined)),
      c.text('re_entry_words', ({ re_entry }) => (re_entry === 'until dry' ? re_entry : undefined)),
      ...c.own({
        max_per_season: 'integer',
        max_total: 'quantity',
        max_in_row: 'integer',
        not_after: 'integer',
      }),
      c.number('protects_d', ({ protects }) => protects),
      c.json('acts', ({ acts }) => acts),
      c.number('cures_h', ({ cures }) => cures),
      c.text('systemic', ({ systemic }) => systemic),
      c.number('rain_fast_h', ({ rain }) => rain?.fast),
      c.number('washed_off_mm', ({ rain }) => rain?.washed_off),
      ...c.range('temperature_c', ({ temperature }) => temperature),
      c.number('wind_m_per_s', ({ wind }) => wind),
      ...c.own({ with: 'json', keep_apart: 'json' }),
      c.number('kept_from_water_m', ({ kept_from_water }) => kept_from_water),
      c.text('hours', ({ hours }) => hours),
      c.number('price', ({ price }) => price?.value),
      c.text('price_currency', ({ price }) => price?.currency),
      c.text('price_per', ({ price }) => price?.per),
      ...c.own({ stock: 'quantity', stocked: 'date', label: 'text', note: 'text' }),
    ],
  ),
  table(
    'actives',
    (ledger) =>
      [...ledger.products.values()].flatMap((product) =>
        product.actives.map((active) => ({ product: product.id, active })),
      ),
    (c) => [
      c.text('product', ({ product }) => product),
      c.text('active', ({ active }) => active.name),
      c.text('group', ({ active }) => active.group),
      ...c.quantity('content', ({ active }) => active.content),
      c.number('content_g', ({ active }) => contentOf(active)),
      c.text('is_copper', ({ active }) => (isCopper(active) ? 'yes' : 'no')),
    ],
  ),
  table(
    'sprayers',
    (ledger) => [...ledger.sprayers.values()],
    (c) => [
      c.text('sprayer', ({ id }) => id),
      c.text('name', ({ name }) => name),
      c.number('tank_l', ({ tank }) => tank),
      c.number('flow_l_per_min', ({ flow }) => flow),
      c.date('calibrated', ({ calibrated }) => calibrated),
      c.number('speed_km_per_h', ({ speed }) => speed),
      c.number('water_l_per_ha', ({ water }) => water),
      c.integer('rows_per_pass', ({ rows_per_pass }) => rows_per_pass),
      c.number('pressure_bar', ({ pressure }) => pressure),
      ...c.own({ nozzles: 'json', note: 'text' }),
    ],
  ),
  table('applications', applicationsOf, (c) => [
    c.integer('season', ({ spray }) => spray.season),
    c.date('date', ({ spray }) => spray.date),
    c.text('block', ({ block }) => block.id),
    c.text('product', ({ product }) => product.id),
    c.json('against', ({ spray, part }: Application) => spray.products[part]!.for),
    c.number('area_ha', ({ area }) => area),
    c.number('share', ({ share }) => share),
    c.number('water_l_per_ha', ({ waterPerHa }) => waterPerHa),
    ...c.quantity('dose', ({ perHa }) => perHa),
    ...c.quantity('total', ({ total }) => total),
    c.number('copper_kg_per_ha', (one) => copperSum([one])),
    c.number('copper_kg', (one) => {
      const perHa = copperSum([one])
      return perHa === null ? null : perHa * areaOf(one.block)
    }),
    c.number('before_harvest_d', ({ product, spray, part }) =>
      daysBeforeHarvest(product, spray.products[part]!.for),
    ),
    c.text('missing', ({ missing }) => missing),
    c.text('file', ({ spray }) => spray.source.at.file),
  ]),
]
