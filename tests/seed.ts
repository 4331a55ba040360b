import fc from 'fast-check'

// One seed for every run, so that a pass here is a pass in CI; ROWBOOK_SEED names another, and `npm run soak`
// and ROWBOOK_RANDOM=1 draw anew.
// A failure ends at once with its example: shrinking can take minutes where one case takes milliseconds.
if (process.env.ROWBOOK_RANDOM !== '1' && process.env.ROWBOOK_SOAK === undefined) {
  fc.configureGlobal({ seed: Number(process.env.ROWBOOK_SEED ?? 20261125), endOnFailure: true })
}
