/** `npm run soak` asks for the long form of every fault test; `npm test` runs the short one. */
export const SOAK = process.env.ROWBOOK_SOAK === '1'

/** A number of repeats: in the short form, and in the long one. */
export const times = (short: number, long: number): number => (SOAK ? long : short)

/** Every nth offset in the short form, each one in the long form; n is prime, so that all columns are covered. */
export const stride = (short: number): number => (SOAK ? 1 : short)
