import type { Ledger, Named } from '../../ledger/read/ledger.ts'
import { readText } from '../../ledger/read/read-file.ts'
import { type ChangedValue, withValues } from '../../ledger/write/amended-text.ts'
import { amendFile, rememberNew } from '../../ledger/write/kept.ts'
import { createFiles } from '../../ledger/write/new-files.ts'
import { NameTaken } from '../../ledger/write/write.ts'
import { ID_SHAPE } from '../../records/kind-names.ts'
import type { Sprayer } from '../../records/kinds/sprayer.ts'
import { findNamed } from '../../records/typed/named.ts'
import { onOneLine } from '../../reports/calibrate/sprayer-record.ts'
import type { Call } from './call.ts'
import { UsageError } from './errors.ts'
import { uninterrupted } from './uninterrupted.ts'

/** Tanks up to this, in L, are knapsacks. Common practice, no source. */
const KNAPSACK = 25

/** A saved calibration: its file, and what changed in it. */
interface SavedCalibration {
  file: string
  /** Whether the record is new. */
  isNew: boolean
  changes: ChangedValue[]
  /** L/ha in the record that were measured at another flow; null where there are none. */
  stale: number | null
}

interface Wanted {
  /** The measured values by their keys; `hasWater` is whether the record has water per hectare. */
  values: (hasWater: boolean) => Record<string, string | string[]>
  tank: number | null
  /** The text of a new record with this id. */
  newText: (id: string) => string
}

/**
 * Saves a calibration in the record of the sprayer named, or of the only one; its other lines and comments stay. Where
 * there is none, makes a new record.
 * @throws UsageError where it isn't clear which sprayer is meant; WriteFailed where the disk refuses
 */
export function saveCalibration(call: Call, wanted: Wanted): SavedCalibration {
  const { ledger } = call.openAnyway({ kinds: [] })
  // One that can't be read may be the one meant.
  const broken = ledger.findings.find(
    ({ file, level }) => level === 'error' && /^sprayers(?:$|\/)/.test(file),
  )
  if (broken) throw new UsageError(`${broken.file}:${broken.line}: ${broken.message}`, broken.help)
  const { sprayer, id } = sprayerMeant(call.text('save'), ledger, wanted.tank)
  if (!sprayer) return create(ledger.root, id, wanted)
  const { file } = sprayer.source.at
  const stood = readText(ledger.root, file)
  if (stood.finding) throw new UsageError(`${file}: ${stood.finding.message}`, stood.finding.help)
  const values = wanted.values(sprayer.water !== undefined)
  const changed = withValues(stood.text, values)
  if (!changed) {
    const lines = Object.entries(values).map(([key, value]) => `${key}: ${onOneLine(value)}`)
    throw new UsageError(
      `${file} is not written one value to a line, so it was left as it is`,
      `write it in by hand: ${lines.join('; ')}`,
    )
  }
  if (changed.changes.length > 0)
    uninterrupted(() => amendFile(ledger.root, { file, before: stood.text, after: changed.text }))
  const isOther = changed.changes.some(({ key }) => key === 'flow') && values.water === undefined
  return { file, isNew: false, changes: changed.changes, stale: isOther ? (sprayer.water ?? null) : null }
}

/** Most letters of an id, as in those that `note` makes from a name. */
const LONGEST_ID = 60

/** The sprayer to save to, or the id of a new one. */
function sprayerMeant(
  said: string | undefined,
  { sprayers }: Pick<Ledger, 'sprayers'>,
  tank: number | null,
): { sprayer: Named<Sprayer> | null; id: string } {
  const all = [...sprayers.values()]
  const ids = all.map(({ id }) => id).join(', ')
  if (said !== undefined) {
    const { found, several } = findNamed(said, all)
    if (several.length > 1)
      throw new UsageError(`\`${said}\` fits ${several.length} sprayers`, `write one of ${ids}`)
    return { sprayer: found ?? null, id: found?.id ?? said }
  }
  if (all.length > 1)
    throw new UsageError('there are several sprayers', `say which: --save ${all[0]!.id} (here: ${ids})`)
  const [only] = all
  if (only && tank !== null && tank !== only.tank)
    throw new UsageError(
      `the only sprayer here, ${only.id}, has a tank of ${only.tank} L, not ${tank} L`,
      `to change it write --save ${only.id}; for another sprayer give it a name: --save lance`,
    )
  if (only) return { sprayer: only, id: only.id }
  if (tank === null || tank <= KNAPSACK) return { sprayer: null, id: 'knapsack' }
  throw new UsageError('no sprayer is recorded yet', 'give it a name: --save mounted')
}

function create(root: string, id: string, { tank, newText }: Wanted): SavedCalibration {
  if (!ID_SHAPE.test(id))
    throw new UsageError(`\`${id}\` is not an id`, 'an id is lower-case words joined by hyphens')
  if (id.length > LONGEST_ID)
    throw new UsageError('the id is too long', `write at most ${LONGEST_ID} letters`)
  if (tank === null) throw new UsageError('a new sprayer needs its tank', 'name it: --tank 12L')
  const wanted = [{ root, folder: 'sprayers', stem: id, text: newText(id), only: true }]
  rememberNew(root, wanted)
  try {
    const [file] = uninterrupted(() => createFiles(wanted))
    return { file: file!, isNew: true, changes: [], stale: null }
  } catch (error) {
    if (!(error instanceof NameTaken)) throw error
    throw new UsageError(`sprayers/${id}.yaml is there, but it has errors`, 'see `rowbook check`')
  }
}
