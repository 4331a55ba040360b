import { type Command, type CommandBody, type Commands, HTML_OPTIONS } from './plumbing/command.ts'
import { COMMAND_NAMES, type CommandName, TABLE } from './table.ts'

/** What loads each command: a run reads only its own. */
const LOAD: Record<CommandName, () => Promise<CommandBody>> = {
  start: async () => (await import('./start.ts')).start,
  check: async () => (await import('./check.ts')).check,
  note: async () => (await import('./note.ts')).note,
  today: async () => (await import('./today.ts')).today,
  mix: async () => (await import('./mix.ts')).mix,
  calibrate: async () => (await import('./calibrate.ts')).calibrate,
  totals: async () => (await import('./totals.ts')).totals,
  heat: async () => (await import('./heat.ts')).heat,
  pressure: async () => (await import('./pressure.ts')).pressure,
  cover: async () => (await import('./cover.ts')).cover,
  sheet: async () => (await import('./sheet.ts')).sheet,
  scouting: async () => (await import('./scouting.ts')).scouting,
  ripeness: async () => (await import('./ripeness.ts')).ripeness,
  sugar: async () => (await import('./sugar.ts')).sugar,
  window: async () => (await import('./window.ts')).window,
  crop: async () => (await import('./crop.ts')).crop,
  harvest: async () => (await import('./harvest.ts')).harvest,
  ready: async () => (await import('./ready.ts')).ready,
  season: async () => (await import('./season.ts')).season,
  diary: async () => (await import('./diary.ts')).diary,
  compare: async () => (await import('./compare.ts')).compare,
  changes: async () => (await import('./changes.ts')).changes,
  label: async () => (await import('./label.ts')).label,
  export: async () => (await import('./export.ts')).exportCommand,
  explain: async () => (await import('./explain.ts')).explain,
  import: async () => (await import('./import.ts')).importCommand,
  calendar: async () => (await import('./calendar.ts')).calendar,
  schema: async () => (await import('./schema.ts')).schema,
  manual: async () => (await import('./manual.ts')).manual,
  completion: async () => (await import('./completion.ts')).completion,
}

/** A command with all that it takes. */
export async function commandOf(name: CommandName): Promise<Command> {
  const [usage, summary] = TABLE[COMMAND_NAMES.indexOf(name)]!
  const [, ...forms] = usage.split(' ')
  const { arguments: args = [], options = [], ...body } = await LOAD[name]()
  return {
    ...body,
    name,
    summary,
    arguments: args.map((one, at) => ({ form: forms[at]!, ...one })),
    options: body.html ? [...options, ...HTML_OPTIONS] : options,
  }
}

/** The commands named, or all of them in the order of the help. */
export const commandsOf: Commands = (names = COMMAND_NAMES) => Promise.all(names.map(commandOf))
