import { field } from './field.ts'
import { asLine } from './fields.ts'
import { misspeltDisease, saidDisease } from './said-disease.ts'

export { DISEASES, type Disease } from './disease.ts'

/** What a spray is against: one of the diseases, by whatever name, or a pest's plain name. */
export const target = (description: string) =>
  field(
    (value, refuse) => {
      const words = asLine(value, refuse)
      const meant = misspeltDisease(words)
      if (meant !== null)
        refuse('unknown-word', `no disease is called \`${words}\``, `did you mean \`${meant}\`?`)
      return saidDisease(words) ?? words
    },
    { type: 'string', description, examples: ['powdery'] },
  )
