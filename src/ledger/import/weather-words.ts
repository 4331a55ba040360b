import type { Measured } from '../weather/columns.ts'
import { offsetIn } from './clock-text.ts'

/** What a heading says about its column. */
export type HeadingWords = ReturnType<typeof headingWords>

/** What a column measures; `unused` where rowbook doesn't need it. */
type About = 'temperature' | 'humidity' | 'rain' | 'wetness' | 'wind' | 'unused'
type End = 'min' | 'max' | 'mean'

/**
 * Words of headings in English, German, French, Dutch, Italian, Spanish, Portuguese, Polish, Czech, Hungarian,
 * Slovenian, Croatian, Romanian, Swedish, Danish and Norwegian, without accents. Common practice, no source.
 */
const ABOUT: readonly [About, RegExp][] = [
  [
    'unused',
    /dew|taupunkt|orvalho|punkt rosy|rosn|daggpunkt|dugg?punkt|harmatpont|roua|rosee|dauwpunt|rugiada|rocio|wet ?bulb|feuchtkugel|soil|gleb|puda|pudy|talaj|\bjord|\bsolo\b|\btla\b|\btal\b|boden|bodem|\bsol\b|suolo|suelo|indoor|inside|wewn|vnitrn|belso|inomhus|inne\b|notranj|innen|interieur|binnen|interno|interior|\bin (?:temp|hum)|(?:temp|hum)\w* in\b|heat|chill|thw|thsw|feels|apparent|gefuhlt|ressent|percepita|sensacion|windrun|wind run|pressure|druck|cisnien|tlak|pressao|presiun|nyomas|tryck?\b|\bpres\b|\bpress\b|\bm?slp\b|\bdruk|baro|pression|presion|\bqfe\b|\bqnh\b|solar|radiation|radiac|promieniow|zaren|sugarzas|stralning|strahlung|rayonnement|straling|radiazione|radiacion|\buv|batter|\bbatt|voltage|spannung|direction|richtung|direc|kierunek|\bsmer\b|smjer|irany|riktning|retning|\bwdir\b|\bdd\b|direccion|direzione|\bdir\b|\bgust|gust\b|spitze|poryw|naraz|sunk|lokes|\bby(?:ar|vind)|vindby|vindsto|vindkast|rafala|boe|rafale|vlaag|raffica|racha|rate\b|intensit|intensidad|\bet0?\b|evapo|\bvpd|cloud|sunshine|sonnenschein|\blux\b|rssi|signal|co2|density|snow|schnee|neige|neve|nieve|leaf (?:temp|\u00b0)|blatttemp|water|wasser|\bcpu\b|board|compost|greenhouse|gewachshaus|\btank|cellar|keller|\bcave\b|cantina|bodega|\brecord\b|\binterval\b|\brn\b|^station|station (?:name|id)|\bid\b|^no$|^nr$|firmware/,
  ],
  [
    'wetness',
    /\bl(?:ea)?f ?wet|zwilz|ovlhc|levelned|bladvat|bladfug?k?t|vlaznost list|omocenost|umectar|molhament|humectacion|\blwd?\b|wetness|blattnass|blattfeucht|humectation|mouillage|bladnat|bagnatura|mojado|humedad foliar|nassedauer/,
  ],
  [
    'rain',
    /rain|precip|opad|deszcz|srazk|zrazk|csapadek|nederbord|nedbor|padavin|oborin|kisa\b|ploaie|\bregn|\bpcp\b|\bprcp\b|\bprec\b|\bppt\b|regen|niederschlag|pluie|neerslag|pioggia|lluvia|pluvio|chuva|\brr\b/,
  ],
  [
    'humidity',
    /humid|\brh|\br ?[hf]\b|\blf\b|umid|wilg|vlhkost|vlag[ae]|vlaznost|paratart|fuktighet|fugtighed|feucht|\brh\b|\brf\b|\brv\b|\bhr\b|\bur\b|vocht|humedad|hygrom|\bhum\b|^hum/,
  ],
  [
    'wind',
    /wind|\bwspd\b|\bff\b|wiatr|\bvitr|\bvetr|\bveter|vjet|szelseb|\bszel\b|\bvind|\bvant|vent\b|vento|viento|\bws\b/,
  ],
  [
    'temperature',
    /temp|\btmp|\bt ?2 ?m\b|teplot|homerseklet|\bt\b|\bta\b|\btm\b|\btn\b|\btx\b|\bt ?air\b|\bair ?t\b|\bt(?:min|max|mean|avg)\b/,
  ],
]

const ENDS: readonly [End, RegExp][] = [
  ['max', /max|mass(?:im[aeo])?\b|high|\bhi\b|hochst|hoogste|\btx\b/],
  ['min', /min(?!ut)|\blow|\blo\b|tiefst|laagste|\btn\b/],
  ['mean', /mean|avg|average|mittel|moy(?:en|\b)|gemiddeld|medi[ao]\b|\btm\b/],
]

/** A heading that only says minimum or maximum: `High`, `Min °C`, `Max. (°F)`. */
const ONLY_END =
  /^(?:daily |day |day s |air )?(?:high(?:est)?|low(?:est)?|hi|lo|max(?:imum|imal|ima|imo|i)?|min(?:imum|imal|ima|imo|i)?|massim[ao]|mean|average|avg|hochst(?:e|er|es|wert)?|tiefst(?:e|er|es|wert)?|mittel(?:wert)?|moyenne|media|hoogste|laagste|gemiddelde?)(?: (?:deg|degrees))?(?: ?(?:\u00b0 ?)?[cf])?$/

const UNITS: readonly [string, RegExp][] = [
  ['F', /\u00b0\s*f\b|\u00ba\s*f\b|\u2109|\bdeg(?:rees)?\s*f\b|fahrenheit|[([]\s*f\s*[)\]]|\bf$/],
  ['C', /\u00b0\s*c\b|\u00ba\s*c\b|\u2103|\bdeg(?:rees)?\s*c\b|celsius|[([]\s*c\s*[)\]]|\bc$/],
  ['share', /[([]\s*0(?:\.0)?\s*(?:-|\.\.|to|bis)\s*1(?:\.0)?\s*[)\]]|\bfraction\b|\banteil\b/],
  ['%', /%|percent|prozent|\bpct\b/],
  [
    'km/h',
    /km\s*\/\s*[hu]\b|\bkm\/?hr?\b|\bkph\b|kmh\b|km\s*h-1|kilomet(?:er|re)s? (?:per|pro|an) |kilom\w+ (?:par|per|por) /,
  ],
  ['mph', /mph\b|\bmi\s*\/\s*h|miles? (?:per|an) hour/],
  ['m/s', /m\s*\/\s*s(?:ec)?\b|\bms\b|m\s*s-1|met(?:er|re)s?\s*(?:\/|per|pro)\s*se[ck]|metri al secondo/],
  ['kn', /\bkn\b|\bkts?\b|knots|knoten|noeuds|nodi\b|nudos/],
  ['Bft', /\bbft\b|beaufort/],
  ['mm', /\bmm\b|mm$|l\s*\/\s*m(?:2|\u00b2)/],
  ['cm', /\bcm\b/],
  ['in', /["\u2033]|\binch(?:es)?\b|[([]\s*in\s*[)\]]|\bin\.?$|\bzoll\b|pouces?\b|pollici\b|pulgadas?\b/],
  ['min', /\bmins?\b|minut/],
  ['h', /\bh\b|\bhrs?\b|hours|stunden|heures|\bore\b|horas/],
  ['s', /\bsec\b|[([]\s*s\s*[)\]]|seconds|sekunden/],
]

/** Units that fit what a heading measures. */
const FITTING: Record<Exclude<About, 'unused'>, readonly string[]> = {
  temperature: ['F', 'C'],
  humidity: ['%', 'share'],
  rain: ['mm', 'cm', 'in'],
  wetness: ['%', 'min', 'h', 's', 'share'],
  wind: ['km/h', 'mph', 'm/s', 'kn', 'Bft'],
}

const RATE = /rate\b|intens/
const RAIN = ABOUT.find(([about]) => about === 'rain')![1]
const COUNTS_DAYS =
  /daily|today|\bday\b|heute|tages|jour|giorn|\bdia\b|diari|dag\b|event|month|monat|week|woche|year|jahr|cumul|kumul|accum|acumul|counter|zahler|compteur|contator|contador|\btotali[sz]|since|seit|depuis/
const COUNTS_HOUR =
  /hourly|last hour|past hour|letzte stunde|derniere heure|\b1 ?h\b|60 ?min|stundlich|horaire|orari[ao]|horari[ao]/
const OUTDOOR =
  /outdoor|outside|\bout\b|aussen|exterieur|buiten|estern[oa]|exterior|ambient|\bair\b|\blufttemp|\baria\b|\baire\b/

/** Letters that removing accents leaves unchanged, and their plain form. */
const LETTERS: Readonly<Record<string, string>> = {
  \u00df: 'ss',
  \u00f8: 'o',
  \u00e6: 'ae',
  \u0142: 'l',
  \u0111: 'd',
  \u0153: 'oe',
}

/** Words for tips of a rain gauge, each a few tenths of a millimetre. */
const TIPS = /\btips?\b|\bclicks?\b|\bcounts?\b|\bpuls|impuls|kippung|wippe|bascul/

/** Reads the words of a heading. */
export function headingWords(name: string) {
  const plain = name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replace(/_/g, ' ')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[\u00df\u00f8\u00e6\u0142\u0111\u0153]/g, (letter) => LETTERS[letter]!)
  const words = plain.replace(/[^a-z0-9%\u00b0]+/g, ' ').trim()
  // `10 min avg` is a mean of ten minutes.
  const ends = words.replace(/\d{1,4} ?min\b/g, '')
  const end = ENDS.find(([, pattern]) => pattern.test(ends))?.[0] ?? null
  const known = ABOUT.find(([, pattern]) => pattern.test(words))?.[0]
  const about = known ?? (ONLY_END.test(words) || isDegrees(plain) ? 'temperature' : null)
  // The highest wind of a row is its gust, the highest rain a rate; of humidity only the mean is of use.
  const isEnd = end === 'max' || end === 'min'
  const isOther = isEnd && (about === 'wind' || about === 'humidity' || (about === 'rain' && end === 'max'))
  return {
    /** The worth of one count, where given: `0.1 mm`, `0.2 mm tips`. */
    each: eachIn(plain),
    /** Whether it counts tips of a rain gauge. */
    isTips: about === 'rain' && TIPS.test(words),
    /** Whether it is a rain rate rather than an amount. */
    isRate: RATE.test(words) && RAIN.test(words),
    /** What it measures; null where not understood. */
    about: (isOther ? 'unused' : about) as About | null,
    /** Which temperature of the row it is. */
    end,
    unit: unitIn(plain, about),
    outdoor: OUTDOOR.test(words),
    /** The period of a rain total: a day or longer, or the last hour. */
    counts: COUNTS_HOUR.test(words) ? 'hour' : COUNTS_DAYS.test(words) ? 'day' : null,
    /** UTC offset of a time, such as `+02:00` or `Z`, where given. */
    offset: offsetIn(plain),
  }
}

/** `0.2 mm` from `Rain (0.2 mm tips)`; null where a heading gives no size. */
function eachIn(plain: string): string | null {
  const match = /(0[.,]\d{1,3}|1\/10) ?(mm|in\b|\u00b0? ?[cf]\b)/.exec(plain)
  if (!match) return null
  const unit = match[2]!.replace(/[\u00b0 ]/g, '')
  return `${match[1]!.replace('1/10', '0.1').replace(',', '.')} ${unit.length === 1 ? unit.toUpperCase() : unit}`
}

/** The fitting unit named in a text; null where there is none. */
export function unitIn(text: string, about: About | null): string | null {
  const fitting: readonly string[] = about === null || about === 'unused' ? [] : FITTING[about]
  return (
    UNITS.find(([unit, pattern]) => fitting.includes(unit) && pattern.test(text.toLowerCase()))?.[0] ?? null
  )
}

/** Whether a heading without a known word is in degrees: `Outside °F`. */
const isDegrees = (plain: string) =>
  /\u00b0\s*[cf]\b|\u00ba\s*[cf]\b|[\u2103\u2109]|celsius|fahrenheit|\bdeg(?:rees)?\s*[cf]\b/.test(plain)

/** Which reading a temperature column is, by its minimum, maximum or mean; null where a row has no such reading. */
export function temperatureKey(end: End | null, isDaily: boolean): Measured | null {
  if (isDaily) return end ?? 'temperature'
  return end === null || end === 'mean' ? 'temperature' : null
}

/** The most likely meaning of an unrecognised heading, by its unit. */
export function likelyBy(name: string, among: readonly Measured[]): Measured | null {
  const plain = name.toLowerCase()
  const key = (['wind', 'rain', 'humidity'] as const).find((one) => unitIn(plain, one) !== null)
  return key && among.includes(key) ? key : null
}
