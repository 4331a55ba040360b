import type { Finding } from '../../ledger/read/finding.ts'
import { pressBias } from '../ripeness/press-bias.ts'
import { type AcidAhead, acidGate } from './acid.ts'
import { cropGate } from './crop.ts'
import { diseaseGate } from './disease.ts'
import type { Asked } from './gate.ts'
import { recordsGate } from './records.ts'
import { sugarGate } from './sugar.ts'
import { beforeHarvestGate, reEntryGate } from './waits.ts'

export function gatesOf(
  asked: Asked,
  { errors, asPressed, ahead }: { errors: readonly Finding[]; asPressed?: boolean; ahead?: AcidAhead },
) {
  const { gate: beforeHarvest, legal } = beforeHarvestGate(asked)
  const reEntry = reEntryGate(asked)
  const pressed = asPressed ? pressBias(asked.ledger, asked.asOf) : null
  const gates = [
    recordsGate(asked, errors),
    beforeHarvest,
    reEntry,
    diseaseGate(asked),
    sugarGate(asked, pressed),
    acidGate(asked, ahead),
    cropGate(asked),
  ]
  return { gates, legal, reEntry }
}
