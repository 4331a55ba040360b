import { nearest } from '../ledger/read/read-entry.ts'
import { SEASON_KINDS, SINGULAR, STANDING_KINDS } from '../records/kind-names.ts'
import type { Call } from './plumbing/call.ts'
import type { CommandBody } from './plumbing/command.ts'
import { UsageError } from './plumbing/errors.ts'
import { NOTE_KINDS, NOTE_MANNERS, noteFields, RECORD_KINDS } from './plumbing/note-options.ts'
import { amendEntry } from './prompts/amend-entry.ts'
import { choosing } from './prompts/choices.ts'
import { noteEntry } from './prompts/note-entry.ts'
import { noteRecord } from './prompts/note-record.ts'
import { askQuestion, type Screen, screenOf } from './prompts/question.ts'
import { undoEntry } from './prompts/undo-entry.ts'

const KINDS: readonly string[] = [...NOTE_KINDS, ...RECORD_KINDS]

/** The purpose of each kind, for the list shown where none was typed. */
const FOR: Readonly<Record<string, string>> = {
  spray: 'what was sprayed',
  scouting: 'a round of looking for disease',
  sample: 'sugar, acid and pH of berries',
  stage: 'a growth stage',
  crop: 'bunches counted and weighed',
  pick: 'what was harvested',
  work: 'pruning, mowing, leaf removal',
  weather: 'a day of weather read by hand',
  block: 'a new block',
  variety: 'a new variety',
  product: 'a new product, from its label',
  sprayer: 'a new sprayer',
}

/** What a grower may call a kind of entry. */
const OTHER_WORDS: ReadonlyMap<string, string> = new Map([
  ['walk', 'scouting'],
  ['disease', 'scouting'],
  ['berries', 'sample'],
  ['sugar', 'sample'],
  ['bbch', 'stage'],
  ['count', 'crop'],
  ['harvest', 'pick'],
  ['pruning', 'work'],
  ['mowing', 'work'],
  ['spraying', 'spray'],
  ['mildew', 'scouting'],
  ['bunches', 'crop'],
])

export const note: CommandBody = {
  arguments: [{ what: KINDS.join(', '), choices: KINDS }],
  options: [...NOTE_MANNERS, ...noteFields()],
  examples: [
    ['rowbook note spray', 'asks for all of it'],
    ['rowbook note spray --like last --time 18:00-19:10', 'the same again, today'],
    ['rowbook note spray --like last --block all --product sulphur-80=4kg/ha', 'the same with changes'],
    [
      'rowbook note spray --date yesterday --block top-terrace --water "300 L/ha" --product "sulphur-80=3 kg/ha" --for powdery',
      'all on one line',
    ],
    ['rowbook note sample --block top-terrace --berries 100 --brix 19.6 --ta "8.4 g/L"', 'a berry sample'],
    [
      'rowbook note scouting --block top-terrace --looked-at bunches=100 --found powdery.bunches=4',
      'a scouting round',
    ],
    ['rowbook note stage --block all --stage 65 --share "50 %"', 'half of the caps are off, everywhere'],
    [
      'rowbook note crop --block top-terrace --at lag --bunches-per-vine 18,22,19 --bunch-weight "48 g, 55 g"',
      'a bunch count',
    ],
    ['rowbook note pick --block top-terrace --weight "1820 kg" --people 6 --hours 5.5', 'what was harvested'],
    ['rowbook note work --block all --job mowing', 'work, on several blocks at once'],
    [
      'rowbook note weather --date yesterday --low "8 C" --high "21 C" --rain "4 mm"',
      'a day by thermometer and rain gauge',
    ],
    [
      'rowbook note weather --day "mon 8 21 4" --day "tue 9 23 ?"',
      'days at once: lowest, highest, rain; ? is unknown',
    ],
    [
      'rowbook note block --name Slope --variety solaris --vines 180 --row-spacing 2m --vine-spacing 1.2m',
      'a new block; `rowbook note block` asks for all of it',
    ],
    ['rowbook note product', 'a new product, asked for in the order of its label'],
    ['rowbook note sprayer --name Knapsack --tank 15L', 'a new sprayer'],
    ['rowbook note variety --name Solaris --colour white', 'a new variety'],
    ['rowbook note --amend last --weight "1280 kg"', 'correct the entry just written'],
    [
      'rowbook note --amend seasons/2026/picks/2026-09-29-top-terrace.yaml --crates 40',
      'add to an entry; the rest of the file stays as it is',
    ],
    ['rowbook note --undo', 'take back the entry just written'],
  ],
  async run(call: Call) {
    if (call.flag('undo')) return undoEntry(call)
    if (call.text('amend') !== undefined) return amendEntry(call)
    const word = call.args[0]
    if (word !== undefined) return noteKind(call, word)
    const lines = KINDS.map((kind) => `${kind.padEnd(10)}${FOR[kind]}`)
    if (!call.mayAsk)
      throw new UsageError('note what?', lines.map((line) => `rowbook note ${line}`).join('\n  '))
    const screen = screenOf(call)
    try {
      const answer = await askQuestion(
        {
          key: 'kind',
          ask: 'What do you want to note?',
          why: 'The first kinds are entries of this season; the last are things that you have.',
          ...choosing(
            'kind',
            KINDS.map((kind) => ({ id: kind, name: kind })),
          ),
          choices: lines.map((shown, index) => ({ word: String(index + 1), shown })),
        },
        screen,
      )
      return answer.came === 'answer' ? await noteKind(call, answer.parts[0]!.text, screen) : 1
    } finally {
      screen.input.close()
    }
  },
}

/** @param screen the terminal where it is open already, with the lines that were pasted on it */
async function noteKind(call: Call, word: string, screen?: Screen): Promise<number> {
  const standing = STANDING_KINDS.find((kind) => kind === word || SINGULAR[kind] === word)
  if (standing) return noteRecord(call, standing, screen)
  const kind = SEASON_KINDS.find((one) => one === word || SINGULAR[one] === word)
  if (kind) return noteEntry(call, kind, screen && { screen })
  const other = OTHER_WORDS.get(word)
  throw new UsageError(
    `\`${word}\` is not an entry kind`,
    other
      ? `did you mean \`rowbook note ${other}\`?`
      : (nearest(word, KINDS) ?? `kinds: ${KINDS.join(', ')}`),
  )
}
