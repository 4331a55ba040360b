/** A season as the generator is told of it; see `generate-weather.mjs`. */
export interface InventedSeason {
  year: number
}
export const SEASONS: readonly InventedSeason[]
export function weatherFile(season: InventedSeason): string
export function weatherPath(season: InventedSeason): string
