// Holds that every export of src is used by another file of src, and that some call in src gives each parameter and
// option that an exported function may go without: what tests alone use is dead code, and a check of it says nothing
// about what a report prints. Prints each with its place and exits 1.
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

/** What only tests give on purpose: a disk that fails, another operating system. */
const GIVEN_BY_TESTS = ['disk', 'platform']

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

/** Each function with its calls in src; null for one that is also handed on as a value, so that others call it. */
const calls = new Map()
function call(node) {
  const to = checker.getResolvedSignature(node)?.declaration
  if (to && calls.get(to) !== null) calls.set(to, [...(calls.get(to) ?? []), node])
}

const functionOf = (declared) =>
  declared && ts.isVariableDeclaration(declared) ? declared.initializer : declared
function handOn(name) {
  const { parent } = name
  if (ts.isCallExpression(parent) && parent.expression === name) return
  if (ts.isImportSpecifier(parent) || ts.isTypeQueryNode(parent) || parent.name === name) return
  const symbol = checker.getSymbolAtLocation(name)
  const to = symbol && functionOf(meant(symbol).valueDeclaration)
  if (to) calls.set(to, null)
}

function visit(node, file) {
  if (ts.isIdentifier(node)) use(checker.getSymbolAtLocation(node), file)
  if (ts.isIdentifier(node)) handOn(node)
  if (ts.isCallExpression(node)) call(node)
  if (ts.isShorthandPropertyAssignment(node)) use(checker.getShorthandAssignmentValueSymbol(node), file)
  // `const { name } = await import('./file.ts')` names an export of that file.
  if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) {
    const name = (node.propertyName ?? node.name).getText()
    use(checker.getTypeAtLocation(node.parent).getProperty(name), file)
  }
  // `() => import('./page.ts')` loads a page, of which the printer takes `page`.
  if (ts.isArrowFunction(node) && ts.isImportCall(node.body)) {
    const module = checker.getSymbolAtLocation(node.body.arguments[0])
    use(module?.exports?.get('page'), file)
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

/** The optional parameters of a function, and of an options object typed in place its optional keys, that no call gives. */
function* neverGiven(made, own) {
  for (const [at, parameter] of made.parameters.entries()) {
    const given = own.flatMap(({ arguments: all }) => all[at] ?? [])
    const isOptional = parameter.questionToken || parameter.initializer
    if (isOptional && given.length === 0) yield parameter.name
    else if (parameter.type) yield* keysNeverGiven(parameter.type, given)
  }
}

function* keysNeverGiven(type, given) {
  if (ts.isIntersectionTypeNode(type)) for (const one of type.types) yield* keysNeverGiven(one, given)
  if (!ts.isTypeLiteralNode(type)) return
  const types = given.map((one) => checker.getTypeAtLocation(one)).flatMap((one) => one.types ?? one)
  for (const { name, questionToken } of type.members)
    if (questionToken && !types.some((one) => one.getProperty(name.getText()))) yield name
}

const idle = []
for (const source of sources) {
  const module = checker.getSymbolAtLocation(source)
  for (const exported of module ? checker.getExportsOfModule(module) : []) {
    const made = functionOf(meant(exported).valueDeclaration)
    const own = made && calls.get(made)
    if (!own || !made.parameters || made.getSourceFile() !== source) continue
    for (const name of neverGiven(made, own)) {
      if (GIVEN_BY_TESTS.includes(name.getText())) continue
      const { line } = source.getLineAndCharacterOfPosition(name.getStart())
      idle.push(`${nameOf(source)}:${line + 1}: ${name.getText()} of ${exported.name}`)
    }
  }
}

for (const place of unused) console.error(`${place} is exported, but no other file of src uses it`)
for (const place of idle) console.error(`${place} may be given, but no call in src gives it`)
console.log(
  unused.length + idle.length === 0
    ? 'Every export of src, and every option of one, is used by src.'
    : `${unused.length} exports and ${idle.length} options lack a user.`,
)
process.exitCode = unused.length + idle.length === 0 ? 0 : 1
