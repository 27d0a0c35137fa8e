/** Whether an element of the network is part of what the author called `name`: `K3 coil` of `K3`, `A1.14 pull-up` of `A1`. */
export function belongsTo(id: string, name: string): boolean {
  return id === name || (id.startsWith(name) && ' ./'.includes(id.charAt(name.length)));
}
