/** A ring of corners as GeoJSON gives them: longitude, latitude in degrees; the first may be repeated last. */
type Ring = readonly (readonly [number, number])[]

/** Mean radius of the earth, m. */
const RADIUS = 6_371_008.8

/**
 * Area of a polygon on a sphere, for a plausibility check only: within 0.5 % of the ellipsoid. Small polygons.
 * @param rings longitude, latitude in degrees; the outer ring, then the holes
 * @returns ha
 * Source: the zone formula of the sphere, from memory; mean radius of the IUGG, from memory. Against the ellipsoid it is
 * 0.34 % low at 50° (Karney's geodesic routines, geographiclib-geodesic).
 */
export function sphericalArea(rings: readonly Ring[]): number {
  const [outer = 0, ...holes] = rings.map(ringArea)
  return holes.reduce((left, hole) => left - hole, outer) / 10_000
}

function ringArea(ring: Ring): number {
  const radians = (degrees: number) => (degrees * Math.PI) / 180
  const sum = ring.reduce((total, [longitude, latitude], index) => {
    const [nextLongitude, nextLatitude] = ring[(index + 1) % ring.length]!
    return (
      total +
      radians(nextLongitude - longitude) * (2 + Math.sin(radians(latitude)) + Math.sin(radians(nextLatitude)))
    )
  }, 0)
  return Math.abs((sum * RADIUS ** 2) / 2)
}
