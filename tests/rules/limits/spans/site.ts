import type { Row } from './row.ts'

const site = (text: string) => ({ 'vineyard.yaml': `name: T\ntimezone: Europe/Berlin\n${text}\n` })
const inside = (text: string) => site(`latitude: 51.5\n${text}`)
const zoned = (text: string) => {
  const [zone, latitude] = text.split(', ')
  return { 'vineyard.yaml': `name: T\ntimezone: ${zone}\nlatitude: ${latitude}\n` }
}
const NORTHERN = [
  'Europe/Berlin',
  'Asia/Tokyo',
  'Asia/Seoul',
  'Asia/Shanghai',
  ...['New_York', 'Chicago', 'Denver', 'Los_Angeles', 'Toronto', 'Vancouver'].map(
    (city) => `America/${city}`,
  ),
]
const SOUTHERN = [
  'Australia/Sydney',
  'Pacific/Auckland',
  'America/Santiago',
  'America/Argentina/Buenos_Aires',
  'America/Montevideo',
  'Africa/Johannesburg',
]
export const SITES: Row[] = [
  [
    'longitude',
    inside,
    ['longitude: 43', 'longitude: -13'],
    ['longitude: 44', 'longitude: -14', 'longitude: 151'],
  ],
  [
    'latitude',
    site,
    ['latitude: 20', 'latitude: 62'],
    ['latitude: 19.9', 'latitude: 62.1', 'latitude: -51.5'],
  ],
  [
    'copper of a season',
    inside,
    ['limits: { copper: { per_season: 0.5 kg/ha } }', 'limits: { copper: { per_season: 12 kg/ha } }'],
    ['limits: { copper: { per_season: 0.4 kg/ha } }', 'limits: { copper: { per_season: 12.1 kg/ha } }'],
  ],
  [
    'copper of years',
    inside,
    ['limits: { copper: { rolling: 60 kg/ha, years: 7 } }'],
    ['limits: { copper: { rolling: 61 kg/ha, years: 7 } }', 'limits: { copper: { rolling: 28 kg/ha } }'],
  ],
  [
    'wind',
    inside,
    ['limits: { wind: 2 m/s }', 'limits: { wind: 9 m/s }'],
    ['limits: { wind: 1.9 m/s }', 'limits: { wind: 9.1 m/s }'],
  ],
  [
    'picking',
    inside,
    ['harvest: { picking: 8 kg/h }', 'harvest: { picking: 200 kg/h }'],
    ['harvest: { picking: 7.9 kg/h }', 'harvest: { picking: 201 kg/h }'],
  ],
  [
    'crate',
    inside,
    ['harvest: { crate: 2 kg }', 'harvest: { crate: 500 kg }'],
    ['harvest: { crate: 1.9 kg }', 'harvest: { crate: 501 kg }'],
  ],
  [
    'juice',
    inside,
    ['harvest: { juice: 400 L/t }', 'harvest: { juice: 850 L/t }'],
    ['harvest: { juice: 399 L/t }', 'harvest: { juice: 851 L/t }'],
  ],
  [
    'time zone of the other side of the equator',
    zoned,
    [
      ...NORTHERN.map((zone) => `${zone}, 45`),
      ...SOUTHERN.map((zone) => `${zone}, -34`),
      'Africa/Nairobi, -34',
      'Asia/Dubai, 25',
      'America/Lima, -24',
    ],
    [...NORTHERN.map((zone) => `${zone}, -45`), ...SOUTHERN.map((zone) => `${zone}, 34`)],
  ],
  [
    'latitude that the zone has but vines have not, or the zone has not',
    zoned,
    ['Australia/Sydney, -60'],
    [
      'Europe/Oslo, 72',
      'Europe/Oslo, 72.1',
      'Australia/Sydney, -5',
      'Australia/Sydney, -4.9',
      'Australia/Sydney, -60.1',
      'Africa/Nairobi, 10',
    ],
  ],
  [
    "longitude at the most that a country's clocks are off",
    zoned,
    [
      'Europe/Berlin, 50\nlongitude: 43.5',
      'Europe/Berlin, 50\nlongitude: -13.5',
      'America/New_York, 42\nlongitude: -22.5',
      'Pacific/Auckland, -40\nlongitude: -179',
      'Asia/Shanghai, 40\nlongitude: 75',
    ],
    [
      'Europe/Berlin, 50\nlongitude: 43.6',
      'America/New_York, 42\nlongitude: -22.4',
      'Pacific/Auckland, -40\nlongitude: 120',
      'America/New_York, 42\nlongitude: 77',
    ],
  ],
  [
    'longitude where clocks are put forward in the southern summer',
    zoned,
    ['America/Santiago, -34\nlongitude: -112.5'],
    ['America/Santiago, -34\nlongitude: -112.6'],
  ],
  [
    'copper of a season against years',
    inside,
    [
      'limits: { copper: { per_season: 4 kg/ha, rolling: 4 kg/ha, years: 1 } }',
      'limits: { copper: { rolling: 2 kg/ha, years: 7 } }',
    ],
    [
      'limits: { copper: { per_season: 4.1 kg/ha, rolling: 4 kg/ha, years: 1 } }',
      'limits: { copper: { rolling: 1.9 kg/ha, years: 7 } }',
    ],
  ],
]
