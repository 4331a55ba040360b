/**
 * The linear Gaussian model of one season of ripening, and the two steps of its Kalman filter.
 *
 *     level'  = level + pace (rate - slowing level + swing)
 *     swing'  = memory swing + N(0, swingNoise)
 *     rate'   = rate
 *     reading = level + N(0, variance)
 *
 * With the state a = (level, swing, rate)' and T = [[1 - pace slowing, pace, pace], [0, memory, 0], [0, 0, 1]] these
 * are the equations a' = T a, P' = T P T' + Q of prediction, and v = y - a1, F = P11 + H, K = P1 / F, a + K v, P - K F
 * K' of updating, in Durbin & Koopman 2012, Time Series Analysis by State Space Methods, 2nd ed., section 4.3, written
 * out for three states, since a window asks for some hundred thousand of them. Kalman 1960, J. Basic Eng. 82:35-45.
 */

/** Mean of the state, and the upper triangle of its covariance. */
export interface State {
  level: number
  swing: number
  rate: number
  levelLevel: number
  levelSwing: number
  levelRate: number
  swingSwing: number
  swingRate: number
  rateRate: number
}

/** What moves a state to the next day, besides the day's pace. */
interface DayStep {
  /** Share by which the rate falls for each unit of level, a day. */
  slowing: number
  /** Share of a swing that is left on the next day. */
  memory: number
  /** Variance that a day adds to the swing. */
  swingNoise: number
}

/** Moves a state forward by one day, in place. */
export function predict(state: State, pace: number, step: DayStep): void {
  const { level, swing, rate, levelLevel, levelSwing, levelRate, swingSwing, swingRate, rateRate } = state
  const { slowing, memory, swingNoise } = step
  const kept = 1 - pace * slowing
  state.level = kept * level + pace * (rate + swing)
  state.swing = memory * swing
  state.levelLevel =
    kept * kept * levelLevel +
    2 * kept * pace * (levelSwing + levelRate) +
    pace * pace * (swingSwing + 2 * swingRate + rateRate)
  state.levelSwing = memory * (kept * levelSwing + pace * (swingSwing + swingRate))
  state.levelRate = kept * levelRate + pace * (swingRate + rateRate)
  state.swingSwing = memory * memory * swingSwing + swingNoise
  state.swingRate = memory * swingRate
}

/** Updates a state with a reading of the level, in place; returns the log density of the reading. */
export function update(state: State, value: number, variance: number): number {
  const { levelLevel, levelSwing, levelRate } = state
  const surprise = value - state.level
  const spread = levelLevel + variance
  const ofLevel = levelLevel / spread
  const ofSwing = levelSwing / spread
  const ofRate = levelRate / spread
  state.level += ofLevel * surprise
  state.swing += ofSwing * surprise
  state.rate += ofRate * surprise
  state.levelLevel -= ofLevel * levelLevel
  state.levelSwing -= ofSwing * levelLevel
  state.levelRate -= ofRate * levelLevel
  state.swingSwing -= ofSwing * levelSwing
  state.swingRate -= ofSwing * levelRate
  state.rateRate -= ofRate * levelRate
  return -0.5 * (Math.log(2 * Math.PI * spread) + (surprise * surprise) / spread)
}
