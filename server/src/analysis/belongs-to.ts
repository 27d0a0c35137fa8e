/** Whether an element of the network is part of what the author called `name`: `K3 coil` of `K3`, `A1.14 pull-up` of `A1`. */
export function belongsTo(id: string, name: string): boolean {
  return id === name || (id.startsWith(name) && ' ./'.includes(id.charAt(name.length)));
}

/** Whether it is part of one of many names. */
export function belongsToOneOf(id: string, names: ReadonlySet<string>): boolean {
  if (names.has(id)) return true;
  for (let i = 1; i < id.length; i++) if (' ./'.includes(id.charAt(i)) && names.has(id.slice(0, i))) return true;
  return false;
}
