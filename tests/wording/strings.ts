import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'

/** A text in the source that can reach a screen. */
export interface SourceText {
  file: string
  line: number
  text: string
}

/**
 * Every string and template of a source file that has words in it; what a template fills in stands as `…`.
 * Names of modules are left out, and strings of one word, which are keys and names more often than speech.
 */
export function textsOf(file: string, source: string): SourceText[] {
  const tree = ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true)
  const texts: SourceText[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return
    // Keys of a report, written as one text.
    if (ts.isCallExpression(node) && node.expression.getText(tree) === 'under') return
    const text = isKeys(node, tree) ? null : textOf(node)
    if (text !== null && /\p{L}\s|\s\p{L}/u.test(text)) {
      const { line } = tree.getLineAndCharacterOfPosition(node.getStart())
      texts.push({ file, line: line + 1, text: text.replace(/\s+/g, ' ') })
    }
    ts.forEachChild(node, visit)
  }
  visit(tree)
  return texts
}

/** Keys of an official form, written as one text. */
const isKeys = ({ parent }: ts.Node, tree: ts.SourceFile): boolean =>
  parent && ts.isCallExpression(parent) && parent.expression.getText(tree) === 'fieldsOf'

function textOf(node: ts.Node): string | null {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text
  if (!ts.isTemplateExpression(node)) return null
  return node.head.text + node.templateSpans.map(({ literal }) => `…${literal.text}`).join('')
}

/** The texts of all source files below a folder, files named relative to the project. */
export function sourceTexts(project: string, folder: string): SourceText[] {
  return readdirSync(join(project, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .flatMap((name) => {
      const file = `${folder}/${name}`
      return textsOf(file, readFileSync(join(project, file), 'utf8'))
    })
}
