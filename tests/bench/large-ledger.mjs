import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

/**
 * Writes a large invented ledger: the same files for the same arguments, sound by every schema. Sprays are one
 * file each, as the program writes them; samples and scouting rounds as a list for each season, as growers type them.
 * @returns how many records it holds.
 */
export function writeLargeLedger(
  root,
  { seasons = 20, blocks = 40, sprays = 400, samples = 200, walks = 240, weather = true } = {},
) {
  const random = seeded(2026)
  const put = (file, text) => {
    mkdirSync(dirname(join(root, file)), { recursive: true })
    writeFileSync(join(root, file), text)
  }
  const blockIds = Array.from({ length: blocks }, (_, index) => `field-${String(index + 1).padStart(2, '0')}`)
  put('vineyard.yaml', 'name: Large Invented\nlatitude: 51.5\nlongitude: 7.1\ntimezone: Europe/Berlin\n')
  for (const id of blockIds)
    put(
      `blocks/${id}.yaml`,
      `name: ${id}\nvariety: palava\nrows: 20\nrow_length: 100 m\nrow_spacing: 2 m\nvine_spacing: 1 m\ncanopy: { height: 1.2 m, width: 0.5 m }\n`,
    )
  put(
    'varieties/palava.yaml',
    'name: Palava\ncolour: white\ntargets: { brix: 19-21 }\nafter_veraison: 35-55 d\n',
  )
  for (const [id, target, group, rate] of PRODUCTS)
    put(
      `products/${id}.yaml`,
      `name: Invented ${id}\nform: WG\nkind: fungicide\nactives: [ { name: ${id}, content: 500 g/kg, group: ${group} } ]\nauthorisation: { number: T-1, until: 2031-12-31 }\nuses:\n  - { against: ${target}, rate: ${rate}, interval: 7-14 d }\nwater: 150-1000 L/ha\nbefore_harvest: 21 d\nre_entry: 24 h\nprotects: 10 d\nrain: { fast: 2 h, washed_off: 25 mm }\nlabel: invented\n`,
    )
  put('sprayers/mounted.yaml', 'name: Mounted\ntank: 400 L\nflow: 5.5 L/min\nspeed: 5 km/h\n')
  let records = 3 + blocks + PRODUCTS.length
  for (let year = 2026 - seasons + 1; year <= 2026; year += 1) {
    const folder = `seasons/${year}`
    // Ten rounds a season, each block in turn, so that the days between two sprays of a block are a label's.
    for (let index = 0; index < sprays; index += 1) {
      const block = blockIds[index % blocks]
      const round = Math.floor(index / blocks)
      const [product, target] = PRODUCTS[round % PRODUCTS.length]
      const date = day(year, 125 + round * 11 + (index % 3))
      const hour = String(6 + (index % 12)).padStart(2, '0')
      put(
        `${folder}/sprays/${date}-${block}-${round}.yaml`,
        `date: ${date}\ntime: ${hour}:10-${hour}:50\nblocks: [${block}]\nsprayer: mounted\nwater: 300 L/ha\nproducts:\n  - { product: ${product}, rate: 1.5 kg/ha, for: ${target} }\nweather: { wind: ${(1.2 + random() * 1.5).toFixed(1)} m/s, from: SW, temperature: ${Math.round(19 + random() * 5)} C, humidity: ${Math.round(60 + random() * 15)} % }\noperator: R.\nnote: round ${round + 1}, ${block}, tank rinsed in the field\n`,
      )
    }
    const entries = (count, make) => Array.from({ length: count }, (_, index) => make(index)).join('')
    put(
      `${folder}/samples.yaml`,
      entries(samples, (index) => {
        const round = Math.floor(index / blocks)
        const brix = (14 + round * 1.4 + random()).toFixed(1)
        return `- date: ${day(year, 225 + round * 7)}\n  block: ${blockIds[index % blocks]}\n  berries: 100\n  of: bag\n  brix: [${brix}, ${(Number(brix) + 0.4).toFixed(1)}, ${(Number(brix) - 0.3).toFixed(1)}]\n  ph: ${(2.9 + round * 0.05).toFixed(2)}\n  ta: ${(11 - round * 0.7).toFixed(1)} g/L\n  taste: 'green, then ripe; skins tough'\n`
      }),
    )
    put(
      `${folder}/scouting.yaml`,
      entries(walks, (index) => {
        const round = Math.floor(index / blocks)
        // The mean surface over all that were looked at is no more than the share that has symptoms.
        const share = 1 + Math.floor(random() * 9)
        return `- date: ${day(year, 150 + round * 14)}\n  block: ${blockIds[index % blocks]}\n  looked_at: { bunches: 100, leaves: 50 }\n  found: { powdery: { bunches: ${share}, severity: ${1 + Math.floor(random() * Math.min(share, 5))} % }, downy: { leaves: ${Math.floor(random() * 4)} } }\n  note: every fifth row, both sides\n`
      }),
    )
    records += sprays + samples + walks
    if (weather) put(`${folder}/weather.csv`, hours(year, random))
  }
  return records
}

const PRODUCTS = [
  ['sulphur', 'powdery', 'M02', '1-6 kg/ha'],
  ['carbonate', 'powdery', 'NC', '1-6 kg/ha'],
  ['phosphonate', 'downy', 'P07', '1-3 kg/ha'],
  ['clay', 'downy', 'NC', '1-8 kg/ha'],
]

/** A station's hours of a season, by the clock of UTC+1 without the hour that spring leaves out. */
function hours(year, random) {
  const lines = ['time,temperature_c,humidity_pct,rain_mm,wetness_min,wind_ms']
  const first = Date.UTC(year - 1, 10, 1)
  const end = Date.UTC(year, 10, 1)
  const skipped = lastSunday(year, 2) + 2 * HOUR
  for (let time = first; time < end; time += HOUR) {
    if (time === skipped) continue
    const dayOfYear = (time - Date.UTC(year, 0, 1)) / 86_400_000
    const warmth = 10 - 9 * Math.cos(((dayOfYear - 20) / 365) * 2 * Math.PI)
    const temperature =
      warmth + 5 * Math.sin((new Date(time).getUTCHours() / 24 - 0.35) * 2 * Math.PI) + random()
    const rain = random() < 0.06 ? (random() * 3).toFixed(1) : '0'
    lines.push(
      `${new Date(time).toISOString().slice(0, 16)},${temperature.toFixed(1)},${Math.round(60 + random() * 40)},${rain},${rain === '0' ? 0 : 60},${(random() * 5).toFixed(1)}`,
    )
  }
  return `${lines.join('\n')}\n`
}

const HOUR = 3_600_000

function lastSunday(year, month) {
  const last = new Date(Date.UTC(year, month + 1, 0))
  return last.getTime() - last.getUTCDay() * 86_400_000
}

function day(year, dayOfYear) {
  return new Date(Date.UTC(year, 0, dayOfYear)).toISOString().slice(0, 10)
}

/** Numbers from 0 to 1 that are the same in every run (mulberry32). */
function seeded(seed) {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}

if (process.argv[1]?.endsWith('large-ledger.mjs') && process.argv[2]) {
  const seasons = Number(process.argv[3] ?? 20)
  console.log(`${writeLargeLedger(process.argv[2], { seasons })} records in ${process.argv[2]}`)
}
