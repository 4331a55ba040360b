import { execFileSync } from 'node:child_process'

/** Builds the program once before the tests, since the black-box tests run what is built. */
export default function setup(): void {
  if (process.env.ROWBOOK_BUILT) return
  execFileSync('node', ['esbuild.config.mjs'], { stdio: 'inherit' })
}
