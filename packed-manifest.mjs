// Run by npm before and after it packs: the bundle holds every library already, so what is packed asks for none,
// and installs where no registry can be reached. `package.json` lists them for whoever reads or checks the source.
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const MANIFEST = fileURLToPath(new URL('package.json', import.meta.url))
const WHOLE = `${MANIFEST}.whole`

// Also before packing: an earlier run may have been stopped between the two.
if (existsSync(WHOLE)) renameSync(WHOLE, MANIFEST)
if (process.argv[2] === 'slim') {
  const whole = readFileSync(MANIFEST, 'utf8')
  const { dependencies, ...packed } = JSON.parse(whole)
  writeFileSync(WHOLE, whole)
  writeFileSync(MANIFEST, `${JSON.stringify(packed, null, 2)}\n`)
}
