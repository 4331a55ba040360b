/** The short cautions that stand under reports by which somebody sprays, enters or picks. */
export const SPRAY_CAUTIONS = [
  'The label and your local rules decide; where they ask for a certificate or a licensed adviser, this replaces neither.',
  'Wear what the label names; keep people and animals out until re-entry; mind bees, water and neighbours.',
]

export const ESTIMATE_CAUTIONS = [
  'Indices, estimates and windows are estimates: look at the vines, taste, and measure again.',
]
