import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/**
 * The licence texts of every library that a bundle holds, as their licences ask for.
 * @param metafile what esbuild says of its inputs; @param project the folder that holds node_modules.
 * @throws Error where a library has no licence file, so that the build stops.
 */
export function thirdPartyLicences(metafile, project) {
  const folders = new Set(
    Object.keys(metafile.inputs).flatMap((input) => {
      const match = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input)
      return match ? [match[1]] : []
    }),
  )
  const parts = [...folders].sort().map((folder) => {
    const path = join(project, folder)
    const { name, version, license } = JSON.parse(readFileSync(join(path, 'package.json'), 'utf8'))
    const file = readdirSync(path).find((one) => /^(licen[cs]e|copying)/i.test(one))
    if (!file) throw new Error(`${name} has no licence file`)
    const text = readFileSync(join(path, file), 'utf8').trim()
    const notice = existsSync(join(path, 'NOTICE'))
      ? `\n\n${readFileSync(join(path, 'NOTICE'), 'utf8').trim()}`
      : ''
    return `${name} ${version} (${license})\n\n${text}${notice}\n`
  })
  const rule = `\n${'-'.repeat(80)}\n\n`
  return `rowbook holds these libraries, each under its own licence.\n${rule}${parts.join(rule)}`
}
