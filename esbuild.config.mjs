import { execFileSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, transform } from 'esbuild'
import { thirdPartyLicences } from './src/licences.mjs'

const project = fileURLToPath(new URL('.', import.meta.url))
const dist = join(project, 'dist')
const LICENCES = 'THIRD-PARTY-LICENSES.txt'
const minified = { minifySyntax: true, minifyWhitespace: true }

// Few files, since loading many costs more than anything the program does, but not one: a command reads the
// parts that it uses. esbuild splits ES modules only, so that each part is turned into CommonJS afterwards.
const { outputFiles, metafile } = await build({
  // The full YAML parser is a part of its own, which only what the plain reader doesn't know calls for.
  entryPoints: ['src/commands/main.ts', 'src/ledger/full-yaml.ts'],
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

mkdirSync(join(dist, 'code'), { recursive: true })
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
  put(basename(path), ascii)
}
const names = outputFiles.map(({ path }) => basename(path))
put(LICENCES, thirdPartyLicences(metafile, project))
put('entry.txt', `${names.find((name) => name.startsWith('main-'))}\n`)
execFileSync(process.execPath, [join(project, 'bin/compile.js')], { stdio: 'inherit' })

// Parts of earlier builds go, but not those that a command may be loading just now, unless a package is made.
const longestRun = ['pack', 'publish'].includes(process.env.npm_command) ? 0 : 600_000
for (const folder of [dist, join(dist, 'code')]) {
  for (const name of readdirSync(folder)) {
    const file = join(folder, name)
    const current = name === 'entry.txt' || name === LICENCES || names.includes(name.replace(/\.code$/, ''))
    if (!current && name !== 'code' && Date.now() - statSync(file).mtimeMs >= longestRun) rmSync(file)
  }
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
