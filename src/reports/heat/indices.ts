import { coolNightClass, coolNightIndex, coolNightMonth } from '../../agronomy/heat/cool-night.ts'
import {
  growingSeasonGroup,
  growingSeasonScheme,
  growingSeasonTemperature,
} from '../../agronomy/heat/growing-season-temperature.ts'
import { huglinClass, huglinIndex, huglinSeason } from '../../agronomy/heat/huglin.ts'
import { hemisphereOf } from '../../agronomy/heat/season-window.ts'
import { winklerIndex, winklerRegion, winklerSeason } from '../../agronomy/heat/winkler.ts'
import { fillOutages } from '../../facts/heat/outages.ts'
import { type DateSpan, daysIn, extremes, unknownDays, windowOf } from '../../facts/heat/window.ts'
import type { DailyWeather } from '../../facts/weather/hours.ts'
import type { IsoDate } from '../../records/date.ts'

/** An index of a whole season: null, with the reason, unless every day of its own window is known. */
export type SeasonIndex = ReturnType<typeof whole>

/** The climate indices of a season, each over its own published window. */
export function heatIndices(
  days: readonly DailyWeather[],
  { season, latitude }: { season: number; latitude: number },
) {
  const hemisphere = hemisphereOf(latitude)
  const winklerSpan = windowOf(winklerSeason[hemisphere], { season, hemisphere })
  const winklerDays = daysIn(days, winklerSpan)
  const winkler = whole(winklerIndex, winklerSpan, { days: winklerDays, isSum: true })
  const seasonMean = whole(growingSeasonTemperature, winklerSpan, { days: winklerDays })
  const nightSpan = monthOf(coolNightMonth[hemisphere], season)
  const nightDays = daysIn(days, nightSpan)
  const nights = (ends: Ends) => coolNightIndex(ends.map((day) => day?.min ?? null))
  const coolNights = whole(nights, nightSpan, { days: nightDays })
  const cool = coolNights.value === null ? null : coolNightClass(coolNights.value)
  return {
    winkler: { ...winkler, region: winkler.value === null ? null : winklerRegion(winkler.value) },
    huglin: huglinOf(days, { season, latitude }),
    seasonMean: {
      ...seasonMean,
      group: seasonMean.value === null ? null : growingSeasonGroup(seasonMean.value),
      scheme: growingSeasonScheme,
    },
    coolNights: { ...coolNights, class: cool?.class ?? null, code: cool?.code ?? null },
  }
}

function huglinOf(days: readonly DailyWeather[], { season, latitude }: { season: number; latitude: number }) {
  const hemisphere = hemisphereOf(latitude)
  const span = windowOf(huglinSeason[hemisphere], { season, hemisphere })
  const own = daysIn(days, span)
  const index = huglinIndex({ days: own.map(extremes), latitude })
  const figureOf = (ends: Ends) => {
    const { value, extension } = huglinIndex({ days: ends, latitude })
    return value ?? extension
  }
  const result = whole(figureOf, span, { days: own, isSum: true })
  const beyond = index.coefficient === null
  const why = result.why ?? (beyond ? index.reason : null)
  const value = beyond ? null : result.value
  const at = value === null ? null : huglinClass(value)
  // Beyond 50° the sum with the coefficient of 50°: an extension, not the published index.
  const extension = beyond ? result.value : null
  const { coefficient } = index
  return { ...result, value, why, class: at?.class ?? null, code: at?.code ?? null, coefficient, extension }
}

type Ends = readonly ({ min: number; max: number } | null)[]

function whole(
  figureOf: (ends: Ends) => number | null,
  span: DateSpan,
  { days, isSum = false }: { days: readonly (DailyWeather | null)[]; isSum?: boolean },
) {
  const ends = days.map(extremes)
  const why = unknownDays(days, span.from)
  const known = figureOf(ends)
  const missing = ends.filter((day) => day === null).length
  const whole = why === null ? null : fillOutages(ends)
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
    filled: whole && figureOf(whole),
    days: days.length - missing,
    missing,
  }
}

function monthOf(month: number, year: number): { from: IsoDate; to: IsoDate } {
  const text = `${year}-${String(month).padStart(2, '0')}`
  return { from: `${text}-01`, to: `${text}-${new Date(Date.UTC(year, month, 0)).getUTCDate()}` }
}
