import geodesy from 'geographiclib-geodesic'

/** Area in ha of a polygon on the WGS84 ellipsoid, holes taken off, by geographiclib-geodesic: what the sphere is held against. */
export function ellipsoidArea(rings: readonly (readonly (readonly [number, number])[])[]): number {
  const [outer = 0, ...holes] = rings.map((ring) => {
    const polygon = geodesy.Geodesic.WGS84.Polygon(false)
    for (const [longitude, latitude] of ring) polygon.AddPoint(latitude, longitude)
    return Math.abs(polygon.Compute(false, true).area ?? 0)
  })
  return holes.reduce((left, hole) => left - hole, outer) / 10_000
}
