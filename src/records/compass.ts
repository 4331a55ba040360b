/** The sixteen points of the compass, by their letters. */
export const COMPASS_POINTS: readonly string[] = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(
  ' ',
)
