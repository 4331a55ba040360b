import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import type { DayTemperatures } from '../../src/agronomy/heat/degree-days.ts'

/**
 * The open weather of the npm package vega-datasets 3.2.1 (development only): daily weather of Seattle and New York,
 * 2012 to 2015, NOAA, U.S. Government data; hourly normals of Seattle, NOAA 1981-2010.
 */
const load = (file: string): Record<string, string>[] =>
  parse(readFileSync(new URL(`../../node_modules/vega-datasets/data/${file}`, import.meta.url)), {
    columns: true,
  })

const placed = load('weather.csv')
const seattleFile = load('seattle-weather.csv')
const day = (row: Record<string, string>) => ({
  date: row.date!,
  min: Number(row.temp_min),
  max: Number(row.temp_max),
})

export type Place = 'Seattle' | 'New York' | 'Seattle file'

/** Days from one ISO date to another, both included, in order. */
export function vegaDays(place: Place, from: string, to: string): (DayTemperatures & { date: string })[] {
  const rows = place === 'Seattle file' ? seattleFile : placed.filter((row) => row.location === place)
  return rows.map(day).filter(({ date }) => date >= from && date <= to)
}

/** Hourly normals of Seattle as [ISO date, °C], from one date to another, both included. */
export function vegaHours(from: string, to: string): { date: string; temperature: number }[] {
  return load('seattle-weather-hourly-normals.csv')
    .map((row) => ({ date: row.date!.slice(0, 10), temperature: Number(row.temperature) }))
    .filter(({ date }) => date >= from && date <= to)
}

/** Days since 1970-01-01 of an ISO date, and back. */
export const dayNumber = (date: string): number => Date.parse(`${date}T00:00:00Z`) / 86_400_000
export const isoDate = (day: number | null): string | null =>
  day === null ? null : new Date(day * 86_400_000).toISOString().slice(0, 10)
