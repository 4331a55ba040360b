import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, transform } from 'esbuild'
import { thirdPartyLicences } from './src/licences.mjs'

const project = fileURLToPath(new URL('.', import.meta.url))
const dist = join(project, 'dist')
const LICENCES = 'THIRD-PARTY-LICENSES.txt'
const minified = { minifySyntax: true, minifyWhitespace: true }

const schemas = readdirSync(join(project, 'src/records'))
  .map((name) => `src/records/${name}`)
  .filter((file) =>
    readFileSync(join(project, 'src/records/kinds.ts'), 'utf8').includes(`'./${basename(file)}'`),
  )

// Parts of which a command runs those that it uses; they are joined into few texts, since loading many files costs
// more than anything the program does (bin/compile.js makes one for each usual command). esbuild splits ES modules only: each part is turned into CommonJS afterwards.
const { outputFiles, metafile } = await build({
  // The full YAML parser is a part of its own, which only what the plain reader doesn't know calls for; and so are
  // the schema of each kind of record, and the colours.
  entryPoints: [
    'src/commands/plumbing/main.ts',
    'src/ledger/yaml/full-yaml.ts',
    'src/render/colours.ts',
    ...schemas,
  ],
  outdir: dist,
  entryNames: '[name]-[hash]',
  chunkNames: 'part-[hash]',
  bundle: true,
  splitting: true,
  write: false,
  metafile: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  ...minified,
  legalComments: 'none',
  plugins: [{ name: 'child-process-at-first-use', setup: loadChildProcessLate }],
  // The ES module build of yaml can be shaken; Node would resolve the larger CommonJS one.
  alias: { yaml: './node_modules/yaml/browser/index.js' },
  logLevel: 'warning',
  absWorkingDir: project,
})

const parts = new Map()
for (const { path, text } of outputFiles) {
  const asCommonJs = {
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    supported: { 'dynamic-import': false },
  }
  const { code: eager } = await transform(text, asCommonJs)
  const { code } = await transform(atFirstUse(eager), { ...minified, target: 'node20', charset: 'ascii' })
  // bin/load.js reads a character a byte, which is quicker; esbuild leaves others in regular expressions.
  const ascii = code.replace(/[^\0-\x7f]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`)
  parts.set(basename(path), ascii)
}
const main = [...parts.keys()].find((name) => name.startsWith('main-'))
// What main.ts needs in any case, which is enough to give most answers again, and what it can call for before run.ts.
const first = reachedFrom([main], (kind) => kind !== 'dynamic-import')
const late = reachedFrom([main], () => true)
mkdirSync(join(dist, 'code'), { recursive: true })
const names = Object.entries({
  first: (name) => first.has(name),
  late: (name) => late.has(name) && !first.has(name),
  whole: (name) => !late.has(name),
}).map(([which, isPart]) => {
  const some = [...parts].filter(([name]) => isPart(name))
  const text = joined(some)
  const name = `${which}-${createHash('sha256').update(text).digest('hex').slice(0, 12)}.js`
  put(name, text)
  return which === 'late' ? [name, ...some.map(([part]) => part)].join(' ') : name
})
put(LICENCES, thirdPartyLicences(metafile, project))
put('entry.txt', `${[main, ...names].join('\n')}\n`)
execFileSync(process.execPath, [join(project, 'bin/compile.js')], { stdio: 'inherit' })

// Texts of earlier builds go, but not those that a command may be loading just now, unless a package is made.
const longestRun = ['pack', 'publish'].includes(process.env.npm_command) ? 0 : 600_000
const entry = readFileSync(join(dist, 'entry.txt'), 'utf8').split(/\s/)
for (const folder of [dist, join(dist, 'code')]) {
  for (const name of readdirSync(folder)) {
    const file = join(folder, name)
    const current = ['entry.txt', LICENCES, 'code', ...entry].includes(name.replace(/\.code$/, ''))
    if (!current && Date.now() - statSync(file).mtimeMs >= longestRun) rmSync(file)
  }
}

/** The parts that some parts need by imports of some kinds, and these themselves; what run.ts needs doesn't count. */
function reachedFrom(some, isWanted) {
  const outputs = Object.entries(metafile.outputs)
  const run = outputs.find(([, { entryPoint }]) => entryPoint === 'src/commands/plumbing/run.ts')[0]
  const found = new Set(outputs.map(([path]) => path).filter((path) => some.includes(basename(path))))
  for (const path of found)
    for (const { path: next, external, kind } of metafile.outputs[path].imports)
      if (!external && next !== run && isWanted(kind)) found.add(next)
  return new Set([...found].map((path) => basename(path)))
}

/** Parts as one text: an object of a function for each, by name. */
function joined(some) {
  const functions = some.map(([name, code]) => `"${name}":function(exports,require,module){${code}\n}`)
  return `({${functions.join(',\n')}})\n`
}

/** Writes a file whole or not at all, since commands may run meanwhile. */
function put(name, content) {
  const place = join(dist, name)
  writeFileSync(`${place}.${process.pid}`, content)
  renameSync(`${place}.${process.pid}`, place)
}

/** Lets a part load the parts that it imports when it first uses them, not before. No module here acts on being loaded. */
function atFirstUse(code) {
  const names = []
  const late = code.replace(/^var (import_\w+) = require\("(\.\/[^"]+)"\);$/gm, (_, name, part) => {
    names.push(name)
    return `let ${name}_;const ${name}=()=>${name}_??=require("${part}");`
  })
  const needed = late.replace(/^require\("\.\/[^"]+"\);$/gm, '')
  return names.reduce((text, name) => text.replaceAll(`${name}.`, `(${name}()).`), needed)
}

/** commander loads Node's child_process, a tenth of a short command, for a kind of subcommand that isn't used here. */
function loadChildProcessLate({ onLoad }) {
  onLoad({ filter: /commander[\\/]lib[\\/]command\.js$/ }, ({ path }) => {
    const text = readFileSync(path, 'utf8')
    const late = text.replace("const childProcess = require('node:child_process');\n", '')
    if (late === text) throw new Error('commander loads child_process otherwise than it did')
    return { contents: late.replaceAll('childProcess.', "require('node:child_process').") }
  })
}
