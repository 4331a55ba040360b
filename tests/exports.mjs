// Holds that every export of src is used by another file of src: an export that tests alone use is dead code, and a
// check of it says nothing about what a report prints. Prints each such export with its place and exits 1.
import { readdirSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'

const PROJECT = fileURLToPath(new URL('..', import.meta.url))
/** The program starts in these, so what they export has its user in bin and in the build. */
const STARTS = ['src/commands/plumbing/main.ts', 'src/commands/plumbing/start.ts']

const files = readdirSync(join(PROJECT, 'src'), { recursive: true, withFileTypes: true })
  .filter((file) => file.isFile() && file.name.endsWith('.ts'))
  .map((file) => join(file.parentPath, file.name))
const { config } = ts.readConfigFile(join(PROJECT, 'tsconfig.json'), ts.sys.readFile)
const { options } = ts.convertCompilerOptionsFromJson(config.compilerOptions, PROJECT)
const program = ts.createProgram(files, options)
const checker = program.getTypeChecker()
const nameOf = (source) => relative(PROJECT, source.fileName).split(sep).join('/')
const sources = program.getSourceFiles().filter((source) => nameOf(source).startsWith('src/'))

/** What a name stands for in the end, through imports and re-exports. */
function meant(symbol) {
  return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol
}

/** Each symbol with the files of src that name it. */
const users = new Map()
function use(symbol, file) {
  if (!symbol) return
  const target = meant(symbol)
  if (!users.has(target)) users.set(target, new Set())
  users.get(target).add(file)
}

function visit(node, file) {
  if (ts.isIdentifier(node)) use(checker.getSymbolAtLocation(node), file)
  if (ts.isShorthandPropertyAssignment(node)) use(checker.getShorthandAssignmentValueSymbol(node), file)
  // `const { name } = await import('./file.ts')` names an export of that file.
  if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) {
    const name = (node.propertyName ?? node.name).getText()
    use(checker.getTypeAtLocation(node.parent).getProperty(name), file)
  }
  ts.forEachChild(node, (child) => visit(child, file))
}
for (const source of sources) visit(source, source)

const unused = []
for (const source of sources) {
  if (STARTS.includes(nameOf(source))) continue
  const module = checker.getSymbolAtLocation(source)
  for (const exported of module ? checker.getExportsOfModule(module) : []) {
    const target = meant(exported)
    const home = target.declarations?.[0]?.getSourceFile() ?? source
    if ([...(users.get(target) ?? [])].some((user) => user !== home && user !== source)) continue
    const { line } = source.getLineAndCharacterOfPosition(exported.declarations[0].getStart())
    unused.push(`${nameOf(source)}:${line + 1}: ${exported.name}`)
  }
}
for (const place of unused) console.error(`${place} is exported, but no other file of src uses it`)
console.log(
  unused.length === 0 ? 'Every export of src is used by src.' : `${unused.length} exports lack a user.`,
)
process.exitCode = unused.length === 0 ? 0 : 1
