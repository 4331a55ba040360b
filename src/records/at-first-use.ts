/** A thing that takes long to make, made when it is first asked for; most runs read one kind of record anew, or none. */
export function atFirstUse<T>(make: () => T): () => T {
  let made: { thing: T } | undefined
  return () => {
    made ??= { thing: make() }
    return made.thing
  }
}
