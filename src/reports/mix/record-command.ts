import { typedIn, type Units } from '../../facts/book-units.ts'
import { type MixJob, volumeOf } from './job.ts'

/** `rowbook note spray …` for a part or spot spray, as it runs; null where nothing of it is on record to write down. */
export function recordCommand(job: MixJob, units: Units): string | null {
  const { blocks = [], spot, treated, sprayer, parts } = job
  if (blocks.length === 0 || (!spot && !treated) || parts.some(({ product }) => !product)) return null
  const targets = [...new Set(parts.flatMap(({ targets }) => targets ?? []))]
  const { rows, vines, share } = treated ?? {}
  return [
    'rowbook note spray',
    spot ? ' --method spot' : '',
    ...blocks.map((id) => ` --block ${id}`),
    rows ? ` --rows ${rows.low === rows.high ? rows.low : `${rows.low}-${rows.high}`}` : '',
    vines ? ` --vines ${vines}` : '',
    share ? ` --share "${figure(share * 100)} %"` : '',
    ` --water "${typedIn({ value: volumeOf(job), unit: 'L' }, units)}"`,
    sprayer === undefined ? '' : ` --sprayer ${sprayer}`,
    ...parts.map(({ id, dose }) => ` --product "${id}=${typedIn(dose, units)}"`),
    ...targets.map((target) => ` --for ${target}`),
  ].join('')
}

/** As many digits as a grower would type. */
const figure = (value: number) => String(Number(value.toPrecision(6)))
