/**
 * The cautions, by what an answer is about. A report names those that belong to it. They stand once a screen, right
 * under its answer, and go along in JSON, CSV and calendars.
 */
export const CAUTION = {
  /** Doses and mixing. */
  dose: 'The label decides. Wear what it names.',
  /** Entering, picking and limits. */
  clearance: 'By what is recorded here; the label and local rules decide.',
  /** Estimates of disease, ripeness, crop and weather. */
  estimate: 'An estimate: look, taste, measure again.',
} as const
