/** Fewest words of a sentence that is too long to be understood at the tank, read once: "under 20 words". */
export const TOO_LONG = 20

const DAY =
  /(?:\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) )?\b\d{1,2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b(?: \d{4})?(?: \d\d:\d\d)?/g
const FIGURE =
  /[+±-]?\d(?:[\d.,]*\d)?(?: \d{3}\b)*(?: ?(?:%|°C-days|°F-days|°C|°F|kg\/ha|L\/ha|g\/L|g\/kg|km\/h|m\/s|Brix|kg|mm|ha|mL|min|mg|[Lghdm])(?![\w/]))?/g

/**
 * The sentences of a line of text, each as words are counted: a figure with its unit, a day, a command and a list of
 * names are one word each. What stands in brackets is a sentence of its own, and so is each part of a list that
 * follows a colon, with semicolons between.
 */
export function sentencesOf(line: string, names: readonly string[]): string[] {
  const listed = names.length === 0 ? /$^/ : namesOf(names)
  const text = line
    .replace(/`[^`]*`/g, 'Command')
    .replace(listed, 'Name')
    .replace(DAY, 'Day')
    .replace(/\b(?:p|vol|al|cf|eq|no)\. /g, '')
    .replace(FIGURE, 'Figure')
  const bracketed = [...text.matchAll(/\(([^()]*)\)/g)].map((match) => match[1]!)
  const plain = text.replace(/ ?\([^()]*\)/g, '')
  return [plain, ...bracketed]
    .flatMap((part) => part.split(/(?<=[.?!])\s+(?=["A-Z])/))
    .flatMap((sentence) => {
      const [lead, list] = /^(.*?): (.*;.*)$/.exec(sentence)?.slice(1) ?? []
      return list ? [lead!, ...list.split('; ')] : [sentence]
    })
}

/** One name, or several in a row as `A, B and C`. */
function namesOf(names: readonly string[]): RegExp {
  const one = names
    .toSorted((a, b) => b.length - a.length)
    .map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
    .join('|')
  return new RegExp(`\\b(?:${one})(?:(?:, | and | or )(?:${one}))*(?![\\w-])`, 'g')
}

export const countWords = (sentence: string): number =>
  sentence.split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word)).length

/** The sentences of a text that are too long; rows of tables and quoted lines of a file are none. */
export function tooLong(text: string, names: readonly string[]): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => !/ {2}|^\d* *\||^(?:rowbook|\$) /.test(line))
    .flatMap((line) => sentencesOf(line, names))
    .filter((sentence) => countWords(sentence) >= TOO_LONG)
}
