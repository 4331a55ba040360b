import type { z } from 'zod'
import { block } from './block.ts'
import { crop } from './crop.ts'
import type { InContainers } from './fruit-weight.ts'
import {
  ENTRY_CALLED,
  SEASON_KINDS,
  type SeasonKind,
  SINGULAR,
  STANDING_KINDS,
  type StandingKind,
} from './kind-names.ts'
import { pick } from './pick.ts'
import { product } from './product.ts'
import { sample } from './sample.ts'
import { scouting } from './scouting.ts'
import { spray } from './spray.ts'
import { sprayer } from './sprayer.ts'
import { stage } from './stage.ts'
import { variety } from './variety.ts'
import { vineyard } from './vineyard.ts'
import { weatherDay } from './weather-day.ts'
import { work } from './work.ts'

/** The records that stand for a thing, one file each, by the folder that holds them. */
export const STANDING = {
  get blocks() {
    return block()
  },
  get varieties() {
    return variety()
  },
  get products() {
    return product()
  },
  get sprayers() {
    return sprayer()
  },
} as const satisfies Record<StandingKind, unknown>

/** The records of a season, by the folder (or file) that holds them. */
export const SEASONAL = {
  get sprays() {
    return spray()
  },
  get scouting() {
    return scouting()
  },
  get samples() {
    return sample()
  },
  get stages() {
    return stage()
  },
  get crop() {
    return crop()
  },
  get picks() {
    return pick()
  },
  get work() {
    return work()
  },
  get weather() {
    return weatherDay()
  },
} as const satisfies Record<SeasonKind, unknown>

export { ENTRY_CALLED, SEASON_KINDS, type SeasonKind, SINGULAR, STANDING_KINDS, type StandingKind }

export type RecordOf<K extends StandingKind | SeasonKind> = z.output<(typeof STANDING & typeof SEASONAL)[K]>

/** A pick with its weights in kg, however they were written. */
export type WeighedPick = Weighed<RecordOf<'picks'>>

type Weighed<T> = { [K in keyof T]: Exclude<T[K], InContainers> }

export { vineyard }
