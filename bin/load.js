// Loads the parts of the program that a command uses, with the code that V8 compiled of them before: without
// it, compiling takes longer than any short command.
'use strict'
const fs = require('node:fs')
const { join } = require('node:path')
const { Script } = require('node:vm')

const OPEN = '(function (exports, require, module) { '
/** What compiled code depends on beside its source, whose hash is in the part's name. */
const LABEL = `${process.version} ${process.arch} ${process.versions.v8}\n`

/**
 * Loads the built program. The compiled code of a part lies beside it or, made by another Node than this, in
 * the user's cache folder; what is missing there is written there for the next time.
 * @returns its `main` and the name of the build, which changes with any part; null where it isn't built.
 */
function loadProgram(folder) {
  const parts = new Parts(folder)
  let entry
  try {
    entry = fs.readFileSync(join(folder, 'entry.txt'), 'latin1').trim()
  } catch (error) {
    if (error.code === 'ENOENT') return null
    throw error
  }
  const { main } = parts.load(entry)
  process.on('exit', () => parts.keepCompiled(userCache()))
  return { main, build: entry }
}

class Parts {
  constructor(folder) {
    this.folder = folder
    this.loaded = new Map()
    /** Scripts that no compiled code was found for, by the name of their part. */
    this.compiledHere = new Map()
  }

  load(name) {
    const known = this.loaded.get(name)
    if (known) return known.exports
    const module = { exports: {} }
    this.loaded.set(name, module)
    const require = (wanted) => (wanted.startsWith('./') ? this.load(wanted.slice(2)) : requireOfNode(wanted))
    this.compile(name).runInThisContext().call(module.exports, module.exports, require, module)
    return module.exports
  }

  compile(name) {
    const filename = join(this.folder, name)
    const text = `${OPEN}${fs.readFileSync(filename, 'latin1')}\n})`
    const cachedData = readCode(join(this.folder, 'code'), name) ?? readCode(userCache(), name)
    const script = new Script(text, { filename, columnOffset: -OPEN.length, cachedData })
    if (cachedData === undefined || script.cachedDataRejected) this.compiledHere.set(name, script)
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
  if (folder === null) return undefined
  let bytes
  try {
    bytes = fs.readFileSync(join(folder, `${name}.code`))
  } catch {
    return undefined
  }
  const size = (bytes.length - LABEL.length) / 2
  if (!(size > 0) || !Number.isInteger(size) || bytes.latin1Slice(0, LABEL.length) !== LABEL) return undefined
  const code = bytes.subarray(LABEL.length, LABEL.length + size)
  return code.equals(bytes.subarray(LABEL.length + size)) ? code : undefined
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
