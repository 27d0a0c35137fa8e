/** A memory of limited size: beyond `most` entries the one that was written first is forgotten. */
export class BoundedMap<K, V> {
  readonly #entries = new Map<K, V>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  /** The value kept for the key, if there is one. */
  get(key: K): V | undefined {
    return this.#entries.get(key);
  }

  /** The value kept for the key, or the one made now. */
  remember(key: K, make: () => V): V {
    const known = this.#entries.get(key);
    if (known !== undefined || this.#entries.has(key)) return known as V;
    const fresh = make();
    if (this.#entries.size >= this.#most) this.#entries.delete(this.#entries.keys().next().value as K);
    this.#entries.set(key, fresh);
    return fresh;
  }
}
