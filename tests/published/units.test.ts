import { scaleOf } from '../../src/ledger/import/recognise-units.ts'
import { convert } from '../../src/records/units.ts'
import { type PublishedRow, published } from './rows.ts'

// Factors as printed with seven digits; the program holds the exact ones, so a row may differ by half of the
// last printed digit.
const NIST = 'NIST SP 811 (2008), appendix B, as given by a public source file'
const printed: [from: string, to: string, factor: number][] = [
  ['US gal', 'm3', 3.785412e-3],
  ['imp gal', 'm3', 4.54609e-3],
  ['US fl oz', 'm3', 2.957353e-5],
  ['imp fl oz', 'm3', 2.841306e-5],
  ['US pt', 'm3', 4.731765e-4],
  ['US qt', 'm3', 9.463529e-4],
  ['lb', 'kg', 4.535924e-1],
  ['oz', 'kg', 2.834952e-2],
  ['psi', 'kPa', 6.894757],
  ['mile', 'm', 1609.344],
  ['ft', 'm', 0.3048],
  ['in', 'm', 0.0254],
  ['ha', 'm2', 10_000],
]
const rows: PublishedRow[] = printed.map(([from, to, factor]) => ({
  id: `one ${from} in ${to}`,
  source: NIST,
  basis: 'second-hand',
  got: () => convert(1, from, to),
  want: factor,
  within: factor * 1.3e-7,
}))

const LEGAL =
  'legal definitions, worked out here: of 1959 inch 25.4 mm and pound 0.45359237 kg; US gallon 231 cubic inches, imperial gallon 4.54609 L'
const exact: [from: string, to: string, factor: number][] = [
  ['acre', 'ha', 0.40468564224],
  ['US fl oz', 'mL', 29.5735295625],
  ['imp fl oz', 'mL', 28.4130625],
  ['US pt', 'mL', 473.176473],
  ['US qt', 'mL', 946.352946],
  ['oz', 'g', 28.349523125],
  ['mph', 'km/h', 1.609344],
  ['mph', 'm/s', 0.44704],
]
rows.push(
  ...exact.map(
    ([from, to, factor]): PublishedRow => ({
      id: `exactly, one ${from} in ${to}`,
      source: LEGAL,
      basis: 'derived',
      got: () => convert(1, from, to),
      want: factor,
      within: factor * 1e-12,
    }),
  ),
)

// Seven digits printed: half of the last.
const compound: [from: string, to: string, factor: number, digits: number][] = [
  ['US gal/acre', 'L/ha', 9.353956, 5e-7],
  ['imp gal/acre', 'L/ha', 11.233633, 5e-7],
  ['lb/acre', 'kg/ha', 1.120851, 5e-7],
  ['oz/acre', 'g/ha', 70.0532, 5e-5],
  ['US fl oz/acre', 'mL/ha', 73.07778, 5e-6],
  ['US pt/acre', 'L/ha', 1.169245, 5e-7],
  ['bar', 'psi', 14.503773773, 5e-10],
]
rows.push(
  ...compound.map(
    ([from, to, factor, within]): PublishedRow => ({
      id: `one ${from} in ${to}`,
      source: LEGAL,
      basis: 'derived',
      got: () => convert(1, from, to),
      want: factor,
      within,
    }),
  ),
  {
    id: 'one imp gal/acre in L/ha',
    source: 'Teagasc crop-spraying paper 2010, second-hand, read on independent.ie: 11.2',
    basis: 'second-hand',
    got: () => convert(1, 'imp gal/acre', 'L/ha'),
    want: 11.2,
    within: 0.05,
  },
  {
    id: '10 US gal/acre in L/ha',
    source: 'UC IPM after Adaskaveg et al. 2022, dormant lime sulphur: 93.5',
    basis: 'derived',
    got: () => convert(10, 'US gal/acre', 'L/ha'),
    want: 93.54,
    within: 0.005,
  },
  {
    id: '90 F in C',
    source: 'UC IPM Pest Notes 7494, year not known: 32.2',
    basis: 'read',
    got: () => convert(90, 'F', 'C'),
    want: 32.2,
    within: 0.05,
  },
  {
    id: '85 F in C',
    source: 'University of Minnesota Extension 2021: 29.4',
    basis: 'read',
    got: () => convert(85, 'F', 'C'),
    want: 29.4,
    within: 0.05,
  },
)

const beaufort = scaleOf('wind', 'Bft', 60)!.scale
// Bounds of the forces in m/s; what an import takes for a force lies between those of its own.
const FORCES = [0, 0.3, 1.6, 3.4, 5.5, 8, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7]
const beaufortRows: PublishedRow[] = FORCES.map((low, force) => ({
  id: `Beaufort ${force} from ${low} m/s`,
  source: 'WMO-No. 306 (2019), Manual on Codes, code table 1100, from memory',
  basis: 'memory',
  got: () => beaufort(force) >= low && beaufort(force) < (FORCES[force + 1] ?? 60),
  want: true,
}))

published([...rows, ...beaufortRows])
