// Loads the program with the code that V8 compiled of it before: without it, compiling takes longer than any
// short command. The program is a few texts of many parts: what gives the answer of an earlier run again; for each
// of the usual commands what it runs, so that no more is read and made ready than that; and all of it.
'use strict'
const fs = require('node:fs')
const { join } = require('node:path')
const { Script } = require('node:vm')

/** What compiled code depends on beside its source, whose hash is in the text's name. */
const LABEL = `${process.version} ${process.arch} ${process.versions.v8}\n`
/** The command whose text serves those that have none. */
const USUAL = 'check'

/**
 * Loads the built program. The compiled code of a text lies beside it or, made by another Node than this, in
 * the user's cache folder; what is missing there is written there for the next time.
 * @param command the name of the command that will be run.
 * @returns its `main` and the name of the build, which changes with any part; null where it isn't built.
 */
function loadProgram(folder, command) {
  let entry
  try {
    entry = fs.readFileSync(join(folder, 'entry.txt'), 'latin1')
  } catch (error) {
    if (error.code === 'ENOENT') return null
    throw error
  }
  const parts = new Parts(folder, entry, command)
  // A command line that was wrong names no command whose code will be wanted again.
  process.on('exit', (status) => status < 2 && parts.keepCompiled(userCache()))
  return { main: parts.main().main, build: parts.build }
}

class Parts {
  /**
   * @param entry names of the main part; of the text that is read first; of one that is seldom needed before the
   * rest, with its parts; of the whole; and of commands' texts.
   */
  constructor(folder, entry, command = '') {
    const [main, first, late, whole, ...own] = entry.trim().split('\n')
    const textOf = (name) => own.find((line) => line.startsWith(`${name} `))?.slice(name.length + 1)
    ;[this.late, ...this.lateParts] = late.split(' ')
    this.folder = folder
    this.entry = main
    this.build = `${first} ${this.late} ${whole}`
    this.command = /^[a-z]{2,20}$/.test(command) ? command : 'none'
    this.texts = [first, textOf(this.command) ?? textOf(USUAL), whole].filter((text) => text !== undefined)
    this.whole = whole
    /** V8 shares what it compiled of a text among all that have its name: another name, nothing shared. */
    this.mark = ''
    this.loaded = new Map()
    this.functions = new Map()
    /** Texts that no compiled code was found for. */
    this.compiledHere = new Map()
  }

  main() {
    return this.load(this.entry)
  }

  load(name) {
    const known = this.loaded.get(name)
    if (known) return known.exports
    const module = { exports: {} }
    this.loaded.set(name, module)
    const require = (wanted) => (wanted.startsWith('./') ? this.load(wanted.slice(2)) : requireOfNode(wanted))
    this.functionOf(name).call(module.exports, module.exports, require, module)
    return module.exports
  }

  functionOf(name) {
    for (const text of this.lateParts.includes(name) ? [this.late] : this.texts) {
      const functions = this.functions.get(text) ?? this.compile(text).runInThisContext()
      this.functions.set(text, functions)
      if (name in functions) return functions[name]
    }
    throw new Error(`the program lacks its part ${name}`)
  }

  compile(text) {
    const filename = join(this.folder, text) + this.mark
    const bytes = read(join(this.folder, text))
    if (bytes === null) throw new Error(`the program lacks ${filename}: build it again`)
    const source = bytes.latin1Slice()
    // Of the whole, each command runs other parts.
    const name = text === this.whole ? `${text}.${this.command}` : text
    for (const folder of [join(this.folder, 'code'), userCache()]) {
      const cachedData = readCode(folder, name)
      if (cachedData === undefined) continue
      const script = new Script(source, { filename, cachedData })
      if (!script.cachedDataRejected) return script
    }
    const script = new Script(source, { filename })
    this.compiledHere.set(name, script)
    return script
  }

  /** Writes what V8 compiled in this run. That it can't be written is no fault: the next run compiles again. */
  keepCompiled(folder) {
    if (folder === null) return
    for (const [name, script] of this.compiledHere) writeCode(folder, name, script.createCachedData())
  }
}

const requireOfNode = require

/** The user's folder for what can be made again, or null where it isn't known. */
function userCache() {
  const { XDG_CACHE_HOME, LOCALAPPDATA, HOME } = process.env
  const base = XDG_CACHE_HOME || (process.platform === 'win32' ? LOCALAPPDATA : HOME && join(HOME, '.cache'))
  return base ? join(base, 'rowbook', 'code', `${process.version}-${process.arch}`) : null
}

/** Compiled code that was damaged would end the process inside V8: it is stored twice, and both must agree. */
function readCode(folder, name) {
  const bytes = folder === null ? null : read(join(folder, `${name}.code`))
  if (bytes === null || bytes.length < LABEL.length) return undefined
  if (bytes.latin1Slice(0, LABEL.length) !== LABEL) return undefined
  const size = (bytes.length - LABEL.length) / 2
  if (!(size > 0) || !Number.isInteger(size)) return undefined
  const code = bytes.subarray(LABEL.length, LABEL.length + size)
  return code.equals(bytes.subarray(LABEL.length + size)) ? code : undefined
}

/** One room for the bytes of all files: to touch new memory takes longer than to read. */
let room = Buffer.alloc(0)

/** The bytes of a file, good until the next is read; null where it can't be read. */
function read(path) {
  let file
  try {
    file = fs.openSync(path, 'r')
    const { size } = fs.fstatSync(file)
    if (room.length < size) room = Buffer.allocUnsafeSlow(size)
    let filled = 0
    while (filled < size) {
      const got = fs.readSync(file, room, filled, size - filled, filled)
      if (got === 0) break
      filled += got
    }
    return room.subarray(0, filled)
  } catch {
    return null
  } finally {
    if (file !== undefined) fs.closeSync(file)
  }
}

/** Written beside its place and renamed, so that another process finds it whole or not at all. */
function writeCode(folder, name, code) {
  const place = join(folder, `${name}.code`)
  const unfinished = `${place}.${process.pid}`
  try {
    fs.mkdirSync(folder, { recursive: true })
    fs.writeFileSync(unfinished, Buffer.concat([Buffer.from(LABEL, 'latin1'), code, code]), { flag: 'wx' })
    fs.renameSync(unfinished, place)
  } catch {
    remove(unfinished)
  }
}

function remove(file) {
  try {
    fs.rmSync(file)
  } catch {
    // It may never have come to be.
  }
}

module.exports = { loadProgram, Parts }
