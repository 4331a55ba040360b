/** The JSON of a report. @throws Error where a number isn't finite: a figure that can't be computed is null. */
export function toJson(report: object): string {
  const text = JSON.stringify(
    report,
    (key, value) => {
      if (typeof value === 'number' && !Number.isFinite(value))
        throw new Error(`the figure ${key} is not finite`)
      return key === 'all' ? undefined : value
    },
    2,
  )
  return `${text}\n`
}
