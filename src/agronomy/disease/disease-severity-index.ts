/**
 * Disease severity index, 0 to 1, of units graded 0 (healthy) to `highestGrade`; null where nothing was graded.
 * It weighs grades, not tissue: keep it apart from mean severity.
 * Source: Townsend & Heuberger 1943; McKinney 1923 (from memory).
 * Throws a RangeError for a grade outside 0 to `highestGrade`, which must be above 0, or a count below 0.
 */
export function diseaseSeverityIndex(
  grades: readonly { grade: number; count: number }[],
  highestGrade: number,
): number | null {
  let looked = 0
  let sum = 0
  for (const { grade, count } of grades) {
    if (!(grade >= 0 && grade <= highestGrade && count >= 0 && highestGrade > 0))
      throw new RangeError(`diseaseSeverityIndex requires grades of 0 to ${highestGrade}, got ${grade}`)
    looked += count
    sum += grade * count
  }
  return looked === 0 ? null : sum / (looked * highestGrade)
}
