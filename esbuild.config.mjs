import { build } from 'esbuild'

// One file: loading many costs more than anything the program does. Dynamic imports stay lazy inside it.
await build({
  entryPoints: ['src/commands/main.ts'],
  outfile: 'dist/rowbook.cjs',
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  // The ES module build of yaml can be shaken; Node would resolve the larger CommonJS one.
  alias: { yaml: './node_modules/yaml/browser/index.js' },
  logLevel: 'warning',
  absWorkingDir: new URL('.', import.meta.url).pathname,
})
