import type { Organ } from '../../records/kinds/scouting.ts'

/** The sheets that a report makes; the fill sheet of a spray is that of `mix`. */
export type SheetKind = 'scouting' | 'sampling' | 'crop'

export interface SheetOptions {
  kind: SheetKind
  /** What the vines are drawn by. */
  seed: string
  /** How exactly, either way: points of per cent, degrees Brix, or per cent of the crop. */
  precision?: number | undefined
  /** Vines to go to in each block, instead of the number calculated; for a sample, of each bag. */
  vines?: number | undefined
  /** What is looked at on a scouting round. */
  organs?: readonly Organ[] | undefined
}

/** How many of something are wanted, and why so many. */
export interface Wanted {
  what: string
  units: number
  perVine: number | null
  why: string
}

/** One line to write on: where to go; the label is empty where the place says all. */
export interface SheetLine {
  label: string
  places: { row: number | null; vine: number }[]
}

export interface SheetBlock {
  block: string
  variety: string
  rows: number | null
  vines: number
  /** Why nobody may enter on the day of the sheet. */
  stops: string[]
  /** What was found, measured or counted last. */
  last: string[]
  wanted: Wanted[]
  /** What one more sample is worth. */
  next: string[]
  /** What the wanted precision doesn't count, in words. */
  leavesOut: string[]
  /** Headings of what is written on each line, in the order of typing in. */
  columns: string[]
  lines: SheetLine[]
  /** What is written once for the block, after its lines. */
  once: string[]
  /** The command that takes it all. */
  typeIn: string
}

/** What each kind of sheet says of a block. */
export type BlockSheet = Omit<SheetBlock, 'block' | 'variety' | 'rows' | 'vines' | 'stops'>
