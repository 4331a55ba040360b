import { requireNotNegative, requirePositive, requireShare } from '../statistics/require-number.ts'

interface FrostCrop {
  /** Nodes' worth of a whole crop that is left. */
  nodes: number
  /** The same as shares of all nodes, and of those that were not blind, 0 to 1. */
  ofAll: number
  ofLive: number
}

/**
 * What a frost leaves of the crop: a node with its primary bud alive bears a whole share, one that shoots from its
 * secondary bud a part, and one that lost both none.
 * Source: Howell, Michigan State University (grapes.extension.org): about 0.35 for secondary buds of Concord and Niagara;
 * other varieties differ much.
 *
 * @param options nodes counted; blind ones before the frost; primaries killed, and of those, secondaries killed too;
 *   secondary, share of a crop that a secondary bud bears, 0 to 1
 * @throws RangeError when counts contradict each other or the share is not within 0 and 1
 */
export function frostCrop(options: {
  nodes: number
  blind: number
  primaryKilled: number
  secondaryKilled: number
  secondary?: number
}): FrostCrop {
  const { nodes, blind, primaryKilled, secondaryKilled, secondary = 0.35 } = options
  requirePositive({ nodes })
  requireNotNegative({ blind, primaryKilled, secondaryKilled })
  requireShare({ secondary })
  const live = nodes - blind
  if (!(live > 0 && primaryKilled <= live && secondaryKilled <= primaryKilled))
    throw new RangeError('frostCrop requires counts that fit into each other')
  const left = live - primaryKilled + (primaryKilled - secondaryKilled) * secondary
  return { nodes: left, ofAll: left / nodes, ofLive: left / live }
}
