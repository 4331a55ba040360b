const LONGEST = 60

/** The id that a name gives: its letters and digits in lower case, joined by hyphens; null where it has none. */
export function idOf(name: string): string | null {
  const plain = name
    .toLowerCase()
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/\u00df/g, 'ss')
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-|-$/g, '')
  return plain === '' ? null : plain
}
