import { field } from './field.ts'
import { asLine } from './fields.ts'
import { misspeltDisease, saidDisease, severalTargets } from './said-disease.ts'

export { DISEASES, type Disease } from './disease.ts'

/** What a spray is against: one of the diseases, by whatever name, or a pest's plain name. */
export const target = (description: string) =>
  field(
    (value, refuse) => {
      const words = asLine(value, refuse)
      const meant = misspeltDisease(words)
      if (meant !== null)
        refuse('unknown-word', `no disease is called \`${words}\``, `did you mean \`${meant}\`?`)
      const several = severalTargets(words)
      if (several)
        refuse('unknown-word', `\`${words}\` names more than one target`, `write \`[${several.join(', ')}]\``)
      if (/^mildews?$/i.test(words.trim()))
        refuse('unknown-word', '`mildew` can be powdery or downy', 'write `powdery` or `downy`')
      return saidDisease(words) ?? words
    },
    { type: 'string', description, examples: ['powdery'] },
  )
