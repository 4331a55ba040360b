/** A ring of corners as GeoJSON gives them: longitude, latitude in degrees; the first may be repeated last. */
export type Ring = readonly (readonly [number, number])[]

/**
 * Geodesic area and outline of a polygon on the WGS84 ellipsoid. Corners may run either way round.
 * A ring that crosses itself isn't noticed; its area is then not to be trusted.
 * @param rings the outer ring, then the holes
 * @returns area in ha with the holes taken off, perimeter of the outer ring in m
 * @throws RangeError where a ring has fewer than 3 different corners, a corner is off the globe, or the holes
 *   are larger than the outer ring
 * Source: Karney's geodesic routines (GeographicLib) as published in geographiclib-geodesic; RFC 7946 for the
 * order of coordinates, from memory.
 */
export async function polygonArea(rings: readonly Ring[]): Promise<{ area: number; perimeter: number }> {
  const { default: geodesy } = await import('geographiclib-geodesic')
  const [outer, ...holes] = rings.map((ring) => {
    const polygon = geodesy.Geodesic.WGS84.Polygon(false)
    for (const [longitude, latitude] of openRing(ring)) polygon.AddPoint(latitude, longitude)
    const { area, perimeter } = polygon.Compute(false, true)
    return { area: Math.abs(area ?? 0), perimeter }
  })
  if (!outer) throw new RangeError('requires an outer ring')
  const area = holes.reduce((left, hole) => left - hole.area, outer.area)
  if (area < 0) throw new RangeError('requires holes smaller than the outer ring')
  return { area: area / 10_000, perimeter: outer.perimeter }
}

function openRing(ring: Ring): Ring {
  for (const [longitude, latitude] of ring) {
    if (!(Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90))
      throw new RangeError(`requires corners on the globe, got ${longitude}, ${latitude}`)
  }
  const first = ring[0]
  const last = ring.at(-1)
  const open = first && last && first[0] === last[0] && first[1] === last[1] ? ring.slice(0, -1) : ring
  if (new Set(open.map(String)).size < 3) throw new RangeError('requires at least 3 different corners')
  return open
}
