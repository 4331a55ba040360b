import { text } from './fields.ts'

export { DISEASES, type Disease } from './disease.ts'

/** What a spray is against: one of the diseases, or a pest's plain name. */
export const target = (description: string) => text(description, ['powdery'])
