import { execFileSync } from 'node:child_process'
import { mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, transform } from 'esbuild'

const project = fileURLToPath(new URL('.', import.meta.url))
const dist = join(project, 'dist')

// Few files, since loading many costs more than anything the program does, but not one: a command reads the
// parts that it uses. esbuild splits ES modules only, so that each part is turned into CommonJS afterwards.
const { outputFiles } = await build({
  entryPoints: ['src/commands/main.ts'],
  outdir: dist,
  entryNames: 'rowbook-[hash]',
  chunkNames: 'part-[hash]',
  bundle: true,
  splitting: true,
  write: false,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  // The ES module build of yaml can be shaken; Node would resolve the larger CommonJS one.
  alias: { yaml: './node_modules/yaml/browser/index.js' },
  logLevel: 'warning',
  absWorkingDir: project,
})

mkdirSync(join(dist, 'code'), { recursive: true })
for (const { path, text } of outputFiles) {
  const { code } = await transform(text, {
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    charset: 'ascii',
    supported: { 'dynamic-import': false },
    minifySyntax: true,
    minifyWhitespace: true,
  })
  // bin/load.js reads a character a byte, which is quicker; esbuild leaves others in regular expressions.
  const ascii = code.replace(/[^\0-\x7f]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`)
  put(basename(path), ascii)
}
const names = outputFiles.map(({ path }) => basename(path))
put('entry.txt', `${names.find((name) => name.startsWith('rowbook-'))}\n`)
execFileSync(process.execPath, [join(project, 'bin/compile.js')], { stdio: 'inherit' })

// Parts of earlier builds go, but not those that a command may be loading just now.
for (const folder of [dist, join(dist, 'code')]) {
  for (const name of readdirSync(folder)) {
    const file = join(folder, name)
    const current = name === 'entry.txt' || names.includes(name.replace(/\.code$/, ''))
    if (!current && name !== 'code' && Date.now() - statSync(file).mtimeMs > 3_600_000) rmSync(file)
  }
}

/** Writes a file whole or not at all, since commands may run meanwhile. */
function put(name, content) {
  const place = join(dist, name)
  writeFileSync(`${place}.${process.pid}`, content)
  renameSync(`${place}.${process.pid}`, place)
}
