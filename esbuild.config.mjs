import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { thirdPartyLicences } from './src/licences.mjs'

const project = fileURLToPath(new URL('.', import.meta.url))
const dist = join(project, 'dist')

// One text of CommonJS, which Node loads quickest; what an `import()` names is made ready when it is called for.
const { outputFiles, metafile } = await build({
  entryPoints: { start: 'src/commands/plumbing/start.ts', rowbook: 'src/commands/plumbing/main.ts' },
  outdir: dist,
  outExtension: { '.js': '.cjs' },
  bundle: true,
  write: false,
  metafile: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  // A script that is compiled by hand knows no import.
  supported: { 'dynamic-import': false },
  minifySyntax: true,
  minifyWhitespace: true,
  minifyIdentifiers: true,
  legalComments: 'none',
  // Of yaml's ES module build only what is used is taken; Node would resolve the larger CommonJS one.
  alias: { yaml: './node_modules/yaml/browser/index.js' },
  plugins: [{ name: 'commander starts no program', setup: withoutPrograms }],
  logLevel: 'warning',
  absWorkingDir: project,
})

mkdirSync(dist, { recursive: true })
const built = new Set()
for (const { path, text } of outputFiles) {
  // It is read a character a byte, which is quicker: in a regular expression others are written as escapes.
  if (/[^\0-\x7f]/.test(text)) throw new Error('the program holds letters beyond ASCII')
  const build = createHash('sha256').update(text).digest('hex').slice(0, 16)
  put(basename(path), `// ${build}\n${text}`)
}
for (const shell of ['bash', 'zsh', 'fish']) {
  const ask = `require(${JSON.stringify(join(dist, 'rowbook.cjs'))}).main(['completion', '${shell}'])`
  put(`completion.${shell}`, execFileSync(process.execPath, ['-e', ask]))
}
put('THIRD-PARTY-LICENSES.txt', thirdPartyLicences(metafile, project))
// The package takes all that is in the folder: what an older build left goes, but for a file that another one is writing.
for (const name of readdirSync(dist))
  if (!built.has(name) && !/\.\d+$/.test(name)) rmSync(join(dist, name), { recursive: true })

/** No command of ours is a program of its own; what would start one takes Node a twelfth of its own start to load. */
function withoutPrograms({ onResolve, onLoad }) {
  onResolve({ filter: /^node:child_process$/ }, ({ importer }) =>
    importer.includes('commander') ? { path: 'child_process', namespace: 'none' } : undefined,
  )
  onLoad({ filter: /./, namespace: 'none' }, () => ({ contents: '' }))
}

/** Writes a file whole or not at all, since commands may run meanwhile. */
function put(name, content) {
  const place = join(dist, name)
  built.add(name)
  writeFileSync(`${place}.${process.pid}`, content)
  renameSync(`${place}.${process.pid}`, place)
}
