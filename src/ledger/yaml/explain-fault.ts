export function explainFault(code: string, message: string): [string, string, string] {
  const first = message.split('\n')[0]!.replace(/ at line \d+, column \d+:?$/, '')
  switch (code) {
    case 'TAB_AS_INDENT':
      return ['tab-indent', 'a tab is used to indent', 'use spaces: YAML takes no tabs there']
    case 'MULTIPLE_DOCS':
      return [
        'several-documents',
        'the file holds more than one document',
        'delete the line with `---`, or make two files',
      ]
    case 'BAD_INDENT':
    case 'MULTILINE_IMPLICIT_KEY':
      return [
        'syntax',
        `the indentation doesn't add up (${first})`,
        'line the keys of one entry up under each other',
      ]
    case 'MISSING_CHAR':
      return ['syntax', first, 'look for a missing bracket, comma, colon or quote, here or just before']
    default:
      return ['syntax', first, 'check brackets, colons, quotes and indentation, here or just before']
  }
}
