import type { FileText } from '../read/source.ts'
import { readPlainYaml } from './fast-yaml.ts'
import { readFullYaml, type YamlResult } from './full-yaml.ts'

/**
 * Reads YAML 1.2 (core schema) into nodes that keep their offsets. Aliases, anchors, tags, directives, merge
 * keys, duplicate keys and control characters are refused: a ledger needs none, and each can lose data.
 * Never throws, whatever the text.
 */
export function readYaml(at: FileText): YamlResult {
  const node = readPlainYaml(at.text)
  return node ? { node, findings: [] } : readFullYaml(at)
}
