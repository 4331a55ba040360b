import type { IsoDate } from '../../records/date.ts'
import type { Disease } from '../../records/disease.ts'
import type { PressureCourse } from '../disease/course.ts'
import type { ReportInput } from '../report.ts'
import { type Danger, dangerJudge, plainDanger } from './danger.ts'

/** The judgement of one block and disease. */
export interface BlockDanger {
  block: string
  disease: Disease
  danger: Danger
}

/**
 * The judgement of every disease in the requested blocks, on a day; `site` is its pressure, where already calculated.
 */
export function dangersOn(input: ReportInput, date: IsoDate, site?: PressureCourse): BlockDanger[] {
  const judge = dangerJudge(input, site)
  return judge.diseases.flatMap((disease) =>
    input.blocks.map(({ id }) => ({
      block: id,
      disease,
      danger: plainDanger(judge.on(id, disease, date)),
    })),
  )
}
