/** The value of a key, made and kept when it is not known; undefined is no value. */
export function remembered<Key, Value>(memory: Map<Key, Value>, key: Key, make: () => Value): Value {
  const known = memory.get(key)
  if (known !== undefined) return known
  const made = make()
  memory.set(key, made)
  return made
}
