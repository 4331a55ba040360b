import { requirePositive } from '../statistics/require-number.ts'

/** km/h x m x L/ha per L/min: 10 000 m² x 60 min / 1000 m. */
const METRIC_CONSTANT = 600

/**
 * Spray volume per hectare of a moving sprayer: 600 x flow / (speed x width).
 * Boom: flow of one nozzle with the nozzle spacing, or of all with the boom width. Air-assisted: flow of all
 * open nozzles with row spacing x rows treated in a pass.
 * @param run flow in L/min, speed in km/h, width in m
 * @returns L/ha
 * @throws RangeError where a figure is not positive
 * Source: Teagasc crop-spraying paper (carried by independent.ie, 2010); oenopedia.com.
 */
export function volumePerHectare(run: { flow: number; speed: number; width: number }): number {
  requirePositive(run)
  return (METRIC_CONSTANT * run.flow) / (run.speed * run.width)
}

/**
 * Flow that gives a wanted spray volume: volume x speed x width / 600.
 * @param wanted volumePerHa in L/ha, speed in km/h, width in m
 * @returns L/min, over all the nozzles that serve the width
 * @throws RangeError where a figure is not positive
 * Source: Teagasc crop-spraying paper (carried by independent.ie, 2010).
 */
export function requiredFlow(wanted: { volumePerHa: number; speed: number; width: number }): number {
  requirePositive(wanted)
  return (wanted.volumePerHa * wanted.speed * wanted.width) / METRIC_CONSTANT
}

/**
 * Speed at which a flow comes to a wanted spray volume: 600 x flow / (volume x width).
 * @param wanted volumePerHa in L/ha, flow in L/min, width in m
 * @returns km/h
 * @throws RangeError where a figure is not positive
 * Source: Teagasc crop-spraying paper (carried by independent.ie, 2010).
 */
export function speedForVolume(wanted: { volumePerHa: number; flow: number; width: number }): number {
  requirePositive(wanted)
  return (METRIC_CONSTANT * wanted.flow) / (wanted.volumePerHa * wanted.width)
}

/**
 * Time for a distance: 3.6 x distance / speed.
 * @param run distance in m, speed in km/h
 * @returns s
 * @throws RangeError where a figure is not positive
 */
export function secondsOver(run: { distance: number; speed: number }): number {
  requirePositive(run)
  return (3.6 * run.distance) / run.speed
}

/**
 * Speed from a timed run: 3.6 x distance / seconds.
 * @param run distance in m, seconds in s
 * @returns km/h
 * @throws RangeError where a figure is not positive
 * Source: Teagasc crop-spraying paper (carried by independent.ie, 2010).
 */
export function speedFromRun(run: { distance: number; seconds: number }): number {
  requirePositive(run)
  return (3.6 * run.distance) / run.seconds
}

/**
 * Spray volume per hectare by the area method: what went out (or was refilled) over a known area.
 * @param plot litres sprayed, area in m²
 * @returns L/ha
 * @throws RangeError where a figure is not positive
 * Source: Good Fruit Grower, calibration steps after extension advice.
 */
export function volumePerHectareFromPlot(plot: { litres: number; area: number }): number {
  requirePositive(plot)
  return (plot.litres * 10_000) / plot.area
}

/**
 * Flow from what was caught in a time, by the minute or any other.
 * @param caught litres, seconds
 * @returns L/min
 * @throws RangeError where a figure is not positive
 */
export function flowFromCatch(caught: { litres: number; seconds: number }): number {
  requirePositive(caught)
  return (caught.litres * 60) / caught.seconds
}

/**
 * Pressure that turns one flow into another through the same nozzle: flow goes with the square root of
 * pressure, so four times the pressure gives twice the flow.
 * @param known pressure (any unit) at flow; wantedFlow in the unit of flow
 * @returns pressure in the unit given
 * @throws RangeError where a figure is not positive
 * Source: the standard nozzle law, from memory.
 */
export function pressureForFlow(known: { pressure: number; flow: number; wantedFlow: number }): number {
  requirePositive(known)
  return known.pressure * (known.wantedFlow / known.flow) ** 2
}

/**
 * Area of the plot of the 1/128-acre method in m²: 340.3125 square feet. A US gallon has 128 fluid ounces,
 * so the fluid ounces sprayed on the plot are the US gallons per acre.
 * Source: Utah State University Extension 2014-03; international foot of 0.3048 m.
 */
export const PLOT_AREA = (43_560 / 128) * 0.3048 ** 2

/**
 * Length to walk so that a swath of this width covers the 1/128-acre plot.
 * @param swath m, the width that is really sprayed (or the nozzle spacing)
 * @returns m
 * @throws RangeError where the swath is not positive
 * Source: Utah State University Extension 2014-03; Clemson University table.
 */
export function courseLength(swath: number): number {
  requirePositive({ swath })
  return PLOT_AREA / swath
}

/**
 * Most spray that the nozzles can have put out in a time.
 * @param run flow of all nozzles in L/min, minutes of spraying
 * @returns L
 * @throws RangeError where a figure is not positive
 */
export function mostSprayed(run: { flow: number; minutes: number }): number {
  requirePositive(run)
  return run.flow * run.minutes
}
