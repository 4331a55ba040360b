/** The sixteen points of the compass, by their letters. */
export const COMPASS_POINTS: readonly string[] = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(
  ' ',
)

/** A wind speed with where it came from behind or before it, `1.4 m/s WSW`, in two; null where it is none. */
export function speedAndPoint(text: string): { speed: string; from: string } | null {
  const found = /^(?:([NESW]{1,3})\s+)?(\d\S*(?:\s[^\s\d]+)?)(?:\s+([NESW]{1,3}))?$/.exec(text.trim())
  const from = found?.[3] ?? found?.[1]
  return found && from && COMPASS_POINTS.includes(from) ? { speed: found[2]!, from } : null
}
