import { coolNightClass, coolNightIndex, coolNightMonth } from '../../agronomy/heat/cool-night.ts'
import {
  growingSeasonGroup,
  growingSeasonScheme,
  growingSeasonTemperature,
} from '../../agronomy/heat/growing-season-temperature.ts'
import { huglinClass, huglinIndex, huglinSeason } from '../../agronomy/heat/huglin.ts'
import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { winklerIndex, winklerRegion } from '../../agronomy/heat/winkler.ts'
import {
  type DateSpan,
  daysIn,
  type Ends,
  extremes,
  fillShortOutages,
  growingSpan,
  unknownDays,
  windowOf,
} from '../../facts/heat/window.ts'
import type { DailyWeather } from '../../facts/weather/hours.ts'

/** An index of a whole season: null, with the reason, unless every day of its own window is known. */
export type SeasonIndex = ReturnType<typeof whole>

/** The climate indices of a season, each over its own published window. */
export function heatIndices(
  days: readonly DailyWeather[],
  { season, latitude }: { season: number; latitude: number },
) {
  const hemisphere = hemisphereOf(latitude)
  const growing = growingSpan({ latitude }, season)
  const winkler = whole(days, growing, { figureOf: winklerIndex, isSum: true })
  const seasonMean = whole(days, growing, { figureOf: growingSeasonTemperature })
  const coolNights = whole(days, monthOf(coolNightMonth[hemisphere], season), {
    figureOf: (ends) => coolNightIndex(ends.map((day) => day?.min ?? null)),
  })
  const cool = coolNights.value === null ? null : coolNightClass(coolNights.value)
  return {
    winkler: { ...winkler, region: winkler.value === null ? null : winklerRegion(winkler.value) },
    huglin: huglinOf(days, windowOf(huglinSeason[hemisphere], { season, hemisphere }), latitude),
    seasonMean: {
      ...seasonMean,
      group: seasonMean.value === null ? null : growingSeasonGroup(seasonMean.value),
      scheme: growingSeasonScheme,
    },
    coolNights: { ...coolNights, class: cool?.class ?? null, code: cool?.code ?? null },
  }
}

function huglinOf(days: readonly DailyWeather[], span: DateSpan, latitude: number) {
  const indexOf = (ends: Ends) => huglinIndex({ days: ends, latitude })
  const { coefficient, reason } = indexOf(daysIn(days, span).map(extremes))
  const figureOf = (ends: Ends) => indexOf(ends).value ?? indexOf(ends).extension
  const result = whole(days, span, { figureOf, isSum: true })
  // Beyond 50° the sum with the coefficient of 50°: an extension, not the published index.
  const isBeyond = coefficient === null
  const value = isBeyond ? null : result.value
  const at = value === null ? null : huglinClass(value)
  return {
    ...result,
    value,
    why: result.why ?? (isBeyond ? reason : null),
    class: at?.class ?? null,
    code: at?.code ?? null,
    coefficient,
    extension: isBeyond ? result.value : null,
  }
}

function whole(
  all: readonly DailyWeather[],
  span: DateSpan,
  { figureOf, isSum = false }: { figureOf: (ends: Ends) => number | null; isSum?: boolean },
) {
  const days = daysIn(all, span)
  const ends = days.map(extremes)
  const why = unknownDays(days, span.from)
  const known = figureOf(ends)
  const missing = ends.filter((day) => day === null).length
  const filled = why === null ? [] : fillShortOutages(ends)
  return {
    ...span,
    value: why === null ? known : null,
    why,
    /** Sum or mean of the days known so far. */
    known,
    /** Of a sum, which no day lessens: what it comes to at least; null for a mean, or where no day is known. */
    atLeast: isSum && missing < days.length ? known : null,
    /**
     * With outages of up to three days filled in straight lines between the days around them: an estimate, to
     * compare seasons by. Null where nothing had to be filled, or more is unknown than that.
     */
    filled: filled.length === 0 || filled.includes(null) ? null : figureOf(filled),
    days: days.length - missing,
    missing,
  }
}

function monthOf(month: number, year: number): DateSpan {
  const text = `${year}-${String(month).padStart(2, '0')}`
  return { from: `${text}-01`, to: `${text}-${new Date(Date.UTC(year, month, 0)).getUTCDate()}` }
}
