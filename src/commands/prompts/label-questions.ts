import { DISEASES } from '../../records/disease.ts'
import { inSiteUnits, type SiteWay } from '../../records/typed/site-way.ts'
import { readActive, readLabelDose, targetNamed } from '../../reports/note/read-label.ts'
import { saidFault } from './field-question.ts'
import type { Part, Question } from './question.ts'
import { unlessMetric } from './wording.ts'

/** Active substances of the product, with content and FRAC group. */
export const activeQuestion = (units: SiteWay['units']): Question => ({
  key: 'active',
  ask: `Active substance, its content and its FRAC group? For example sulphur ${units === 'metric' ? '800 g/kg' : '80 %'} M02.`,
  why: 'The FRAC group (mode of action) is printed on most labels; leave it out where it is not. Several with + between them.',
  read(text) {
    const parts: Part[] = []
    for (const one of text.split('+').filter((piece) => piece.trim() !== '')) {
      const { fault } = readActive(one)
      if (fault) return { fault: saidFault(fault) }
      parts.push({ option: 'active', text: one.trim() })
    }
    return { parts }
  },
})

const targetsQuestion: Question = {
  key: 'targets',
  ask: `What is it for, by its label? For example powdery, or powdery, downy.`,
  why: `Diseases that rowbook knows: ${DISEASES.join(', ')}. Any pest on the label may be typed too.`,
  read: (text) => {
    const words = text.split(/[,;+]|\band\b/i).map((word) => word.trim())
    const named = words.filter((word) => word !== '').map(targetNamed)
    if (named.length === 0 || !named.every((word) => /^[a-z][^\d]{2,}$/i.test(word)))
      return { fault: 'Type the diseases or pests that the label names, like powdery, downy.' }
    return { parts: [...new Set(named)].map((target) => ({ option: 'target', text: target })) }
  },
}

const intervalQuestion: Question = {
  key: 'interval',
  ask: 'How many days between two sprays, by the label? For example 7-14.',
  why: 'The shortest and the longest interval. Without it, rowbook gives no day for the next spray.',
  optional: true,
  read: (text) => {
    const days = /^(\d{1,3}(?:\s*(?:-|to)\s*\d{1,3})?)\s*(?:d|days?)?$/i.exec(text.trim())?.[1]
    if (days === undefined) return { fault: 'Type days, like 7-14, or 10.' }
    return { parts: [{ option: 'interval', text: days.replace(/\s/g, '').replace(/to/i, '-') }] }
  },
}

/** What the label allows: its targets, the dose against each, and the interval. */
export function useQuestions(targets: readonly string[], units: SiteWay['units']): Question[] {
  return [targetsQuestion, ...targets.map((target) => doseQuestion(target, units)), intervalQuestion]
}

const DOSES = unlessMetric('2-6 kg/ha, 5-20 g/L, 50 g in 10 L', '2-5 lb/acre, 1-3 oz/gal, 7 oz in 10 gal')

function doseQuestion(target: string, units: SiteWay['units']): Question {
  return {
    key: `dose:${target}`,
    ask: `Dose against ${target}, as the label prints it? For example ${DOSES[units]}.`,
    why: 'Copy it from the label in your hand, with its unit. Mixing and checks depend on it.',
    read: (text) => {
      const { fault } = readLabelDose(inSiteUnits(text, units))
      return fault ? { fault: saidFault(fault) } : { parts: [{ option: `dose:${target}`, text }] }
    },
  }
}

/** Puts target, dose and interval together into the value of `--use`. */
export function usesOf(parts: readonly Part[]): Part[] {
  const interval = parts.find(({ option }) => option === 'interval')?.text
  return parts.flatMap(({ option, text }) => {
    if (!option.startsWith('dose:')) return []
    const every = interval === undefined ? '' : ` every ${interval} d`
    return [{ option: 'use', text: `${option.slice(5)} ${text}${every}` }]
  })
}
