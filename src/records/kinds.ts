import type { z } from 'zod'
import type { InContainers } from './fields/fruit-weight.ts'
import {
  ENTRY_CALLED,
  SEASON_KINDS,
  type SeasonKind,
  SINGULAR,
  STANDING_KINDS,
  type StandingKind,
} from './kind-names.ts'
import { block } from './kinds/block.ts'
import { crop } from './kinds/crop.ts'
import { pick } from './kinds/pick.ts'
import { product } from './kinds/product.ts'
import { sample } from './kinds/sample.ts'
import { scouting } from './kinds/scouting.ts'
import { spray } from './kinds/spray.ts'
import { sprayer } from './kinds/sprayer.ts'
import { stage } from './kinds/stage.ts'
import { variety } from './kinds/variety.ts'
import { vineyard } from './kinds/vineyard.ts'
import { weatherDay } from './kinds/weather-day.ts'
import { work } from './kinds/work.ts'

/** Schemas by kind, each made on first use. */
function atFirstUseEach<T extends Record<string, () => unknown>>(
  makers: T,
): { readonly [K in keyof T]: ReturnType<T[K]> } {
  const getters = Object.entries(makers).map(([kind, get]) => [kind, { get, enumerable: true }])
  return Object.defineProperties({} as { [K in keyof T]: ReturnType<T[K]> }, Object.fromEntries(getters))
}

/** The records that stand for a thing, one file each, by the folder that holds them. */
export const STANDING = atFirstUseEach({
  blocks: block,
  varieties: variety,
  products: product,
  sprayers: sprayer,
} satisfies Record<StandingKind, () => unknown>)

/** The records of a season, by the folder (or file) that holds them. */
export const SEASONAL = atFirstUseEach({
  sprays: spray,
  scouting,
  samples: sample,
  stages: stage,
  crop,
  picks: pick,
  work,
  weather: weatherDay,
} satisfies Record<SeasonKind, () => unknown>)

export { ENTRY_CALLED, SEASON_KINDS, type SeasonKind, SINGULAR, STANDING_KINDS, type StandingKind }

export type RecordOf<K extends StandingKind | SeasonKind> = z.output<(typeof STANDING & typeof SEASONAL)[K]>

/** A pick with its weights in kg, however they were written. */
export type WeighedPick = Weighed<RecordOf<'picks'>>

type Weighed<T> = { [K in keyof T]: Exclude<T[K], InContainers> }

export { vineyard }
