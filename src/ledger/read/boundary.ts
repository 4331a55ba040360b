import { posix } from 'node:path'
import type { Ledger } from './ledger.ts'

/** Corners as longitude, latitude in degrees. */
type Ring = [number, number][]

/**
 * The polygons of the outline of a block: for each its outer ring, then its holes.
 * @returns null where there is no such file (which has its own finding); else the polygons, or why there are none.
 */
export function boundaryOf(
  ledger: Ledger,
  file: string,
): { polygons: Ring[][]; why: null } | { polygons: null; why: string } | null {
  const path = posix.normalize(`blocks/${file}`)
  if (!ledger.reader.has(path)) return null
  const read = ledger.reader.read(path)
  if (read.text === undefined) return null
  let json: unknown
  try {
    json = JSON.parse(read.text)
  } catch {
    return { polygons: null, why: 'it is not JSON' }
  }
  const polygons = polygonsOf(json, 0)
  if (polygons.length === 0) return { polygons: null, why: 'it holds no polygon' }
  if (!polygons.every((rings) => rings.every(isRing)))
    return { polygons: null, why: 'a corner is not longitude and latitude' }
  return { polygons: polygons as Ring[][], why: null }
}

/** Deepest nesting of features; GeoJSON (RFC 7946) needs two levels. */
const DEEPEST = 5

function polygonsOf(json: unknown, depth: number): unknown[][] {
  if (depth > DEEPEST || typeof json !== 'object' || json === null) return []
  const { type, coordinates, geometry, features } = json as Record<string, unknown>
  if (type === 'Polygon' && Array.isArray(coordinates)) return [coordinates]
  if (type === 'MultiPolygon' && Array.isArray(coordinates)) return coordinates.filter(Array.isArray)
  if (type === 'Feature') return polygonsOf(geometry, depth + 1)
  if (type === 'FeatureCollection' && Array.isArray(features))
    return features.flatMap((one) => polygonsOf(one, depth + 1))
  return []
}

const isRing = (ring: unknown): boolean => Array.isArray(ring) && ring.length >= 3 && ring.every(isCorner)

/** Whether it is a longitude and a latitude in degrees, and perhaps a height. */
const isCorner = (corner: unknown): boolean =>
  Array.isArray(corner) && isWithin(corner[0], 180) && isWithin(corner[1], 90)

const isWithin = (degrees: unknown, most: number): boolean =>
  typeof degrees === 'number' && Math.abs(degrees) <= most
