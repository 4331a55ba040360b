/**
 * Growth stages of the grapevine on the BBCH scale.
 * Source: Lorenz et al. 1995, Phenological growth stages of the grapevine, Aust. J. Grape Wine Res. 1:91-103;
 * Meier (ed.) 2001, BBCH Monograph, 2nd edition. The short descriptions are our own.
 */
export const GROWTH_STAGES: ReadonlyMap<number, string> = new Map([
  [0, 'dormant'],
  [1, 'buds begin to swell'],
  [3, 'buds swollen, not yet green'],
  [5, 'brown wool plain to see'],
  [7, 'first green of the shoot'],
  [8, 'green shoot tips'],
  [9, 'green shoot tips plain to see'],
  [11, 'first leaf spread'],
  [12, 'two leaves spread'],
  [13, 'three leaves spread'],
  [14, 'four leaves spread'],
  [15, 'five leaves spread'],
  [16, 'six leaves spread'],
  [17, 'seven leaves spread'],
  [18, 'eight leaves spread'],
  [19, 'nine or more leaves spread'],
  [53, 'flower clusters plain to see'],
  [55, 'flower clusters swelling, flowers close together'],
  [57, 'flower clusters full, flowers apart'],
  [60, 'first caps loose'],
  [61, 'flowering begins, a tenth of caps off'],
  [62, 'a fifth of caps off'],
  [63, 'early flowering, three tenths of caps off'],
  [64, 'four tenths of caps off'],
  [65, 'full flowering, half of caps off'],
  [66, 'six tenths of caps off'],
  [67, 'seven tenths of caps off'],
  [68, 'eight tenths of caps off'],
  [69, 'flowering over'],
  [71, 'fruit set'],
  [73, 'peppercorn size, bunches begin to hang'],
  [75, 'pea size, bunches hang'],
  [77, 'start of bunch closure'],
  [79, 'bunch closure complete'],
  [81, 'start of veraison, first colour'],
  [83, 'veraison under way'],
  [85, 'berries soften'],
  [89, 'ripe for picking'],
  [91, 'after picking, wood ripens'],
  [92, 'leaves begin to colour'],
  [93, 'leaves begin to fall'],
  [95, 'half of leaves fallen'],
  [97, 'leaf fall over'],
  [99, 'picked crop'],
])

/** The stage of the scale nearest to a code that isn't on it. */
export const nearestStage = (code: number): number =>
  [...GROWTH_STAGES.keys()].reduce((near, stage) =>
    Math.abs(stage - code) < Math.abs(near - code) ? stage : near,
  )

/**
 * BBCH stage of each stage of the modified Eichhorn-Lorenz scale (E-L) that has one.
 * Sources: Coombe 1995, Aust. J. Grape Wine Res. 1:104-110; Lorenz et al. 1995, Aust. J. Grape Wine Res. 1:100-103.
 * The scales are cut differently: which stages answer each other is from memory.
 */
const FROM_EICHHORN_LORENZ: ReadonlyMap<number, number> = new Map(
  [
    '1:0 2:1 3:5 4:7 5:9 7:11 9:13 11:14 12:53 13:16 14:17 15:55 16:19 17:57 18:57 19:60 20:61 21:63 23:65',
    '25:68 26:69 27:71 29:73 31:75 32:77 33:79 34:81 35:81 36:83 37:85 38:89 41:91 43:93 47:97',
  ]
    .join(' ')
    .split(' ')
    .map((pair) => pair.split(':').map(Number) as [number, number]),
)

/** Growers' names for the stages; common practice, no source. */
const WORDS: ReadonlyMap<string, number> = new Map(
  Object.entries({
    0: 'dormant, dormancy, winter',
    1: 'bud swell, buds swelling, swelling',
    5: 'wool, woolly bud, woolly buds',
    7: 'green tip',
    9: 'budburst, bud burst, bud break, budbreak',
    11: 'first leaf',
    53: 'flower clusters, clusters visible, flower clusters visible, inflorescences visible',
    55: 'clusters swelling',
    57: 'pre-bloom, before bloom, before flowering, just before bloom, just before flowering',
    61: 'start of flowering, start of bloom, flowering begins, first flowers, early bloom, early flowering',
    65: 'flowering, bloom, full bloom, full flowering, mid bloom, in flower, capfall, flower',
    69: 'end of flowering, end of bloom, flowering over, after bloom, capfall complete',
    71: 'fruit set, fruitset, set, setting',
    73: 'peppercorn, peppercorn size, shatter',
    75: 'pea, pea size, pea-size, pea-sized, pea sized, peas',
    77: 'bunch closure, start of bunch closure, bunches closing, closure',
    79: 'bunches closed, end of bunch closure, bunch closure complete, closed',
    81: 'veraison, start of veraison, veraison begins, first colour, first color',
    83: 'mid veraison, veraison under way, colouring, coloring, half colour, half color',
    85: 'end of veraison, veraison complete, full colour, full color, softening, soft',
    89: 'ripe, harvest, fully ripe, berries ripe, harvest ripe, ready to pick',
    91: 'after harvest, after picking, wood ripe',
    93: 'leaf fall, leaves falling',
    97: 'end of leaf fall, leaves fallen, leafless',
  }).flatMap(([stage, words]) => words.split(', ').map((word): [string, number] => [word, Number(stage)])),
)

/**
 * Reads a growth stage as growers say it: a BBCH number (`65`, `BBCH 65`), `E-L 25`, or words (`flowering`,
 * `50 % veraison`, `80 % capfall`, `6 leaves`).
 * @returns the BBCH stage, or null where the text is none of these; whether a number is on the scale isn't judged
 */
export function readStage(text: string): number | null {
  const word = text
    .trim()
    .toLowerCase()
    .replace(/v\u00e9raison/g, 'veraison')
    .replace(/\s+/g, ' ')
  const number = /^(?:bbch\s?)?(\d{1,3})$/.exec(word)
  if (number) return Number(number[1])
  const lorenz = /^e-?\s?l\s?(\d{1,2})$/.exec(word)
  if (lorenz) return FROM_EICHHORN_LORENZ.get(Number(lorenz[1])) ?? null
  const leaves =
    /^(\d|two|three|four|five|six|seven|eight|nine) lea(?:f|ves)(?: (?:out|unfolded|spread|separated|open))?$/.exec(
      word,
    )
  if (leaves) return 10 + (NUMBERS.includes(leaves[1]!) ? NUMBERS.indexOf(leaves[1]!) + 2 : Number(leaves[1]))
  const share = /^(\d{1,3}) ?(?:%|percent|per cent) ?(?:of )?([a-z -]+)$/.exec(word)
  if (share) return ofShare(Number(share[1]), share[2]!.trim())
  return (
    WORDS.get(word) ?? WORDS.get(word.replace(/^berries (?:are |at |the size of )?| berries$/g, '')) ?? null
  )
}

const NUMBERS = ['two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine']

/** The share of berries coloured, in percent, that words like `50 % veraison` say; null where they say none. */
export function veraisonShare(text: string): number | null {
  const share = /^(\d{1,2}) ?(?:%|percent|per cent) ?(?:of )?([a-z\u00e9 -]+)$/i.exec(text.trim())
  const stage = share && readStage(text)
  return stage !== null && stage >= 81 ? Number(share![1]) : null
}

/**
 * A share of caps off or of berries coloured. BBCH counts flowering in tenths; veraison in thirds is our own choice.
 */
function ofShare(percent: number, of: string): number | null {
  if (percent > 100) return null
  if (/^(?:flowering|bloom|in bloom|capfall|cap fall|caps off|flower)$/.test(of)) {
    const tenths = Math.round(percent / 10)
    return tenths === 0 ? 60 : Math.min(69, 60 + tenths)
  }
  if (!/^(?:veraison|colour|color|coloured|colored|ripening)$/.test(of)) return null
  return percent < 34 ? 81 : percent < 90 ? 83 : 85
}

/** Every stage that has a name of the trade, with its first name, in order. */
export const STAGE_WORDS: readonly { stage: number; word: string }[] = [...new Set(WORDS.values())].map(
  (stage) => ({
    stage,
    word: [...WORDS].find(([, one]) => one === stage)![0],
  }),
)

/** The same as one text, as `65 flowering; 69 end of flowering`: for help. */
export const stageList = (): string => STAGE_WORDS.map(({ stage, word }) => `${stage} ${word}`).join('; ')
