/** Where the time of a run goes; written for people, below the findings. */
export class Stats {
  readonly #stages: { readonly name: string; ms: number }[] = [];

  /** Carries out a stage and counts its time; one that comes again adds to itself. */
  async time<T>(name: string, work: () => T | Promise<T>): Promise<T> {
    const start = performance.now();
    const result = await work();
    const stage = this.#stages.find(one => one.name === name);
    const ms = performance.now() - start;
    if (stage) stage.ms += ms;
    else this.#stages.push({ name, ms });
    return result;
  }

  toString(): string {
    const total = this.#stages.reduce((sum, stage) => sum + stage.ms, 0);
    const lines = [...this.#stages, { name: 'altogether', ms: total }].map(
      ({ name, ms }) => `${name.padEnd(nameWidth)}${ms.toFixed(1).padStart(9)} ms`,
    );
    const megabytes = process.memoryUsage.rss() / 1e6;
    return [...lines, `${'memory'.padEnd(nameWidth)}${megabytes.toFixed(1).padStart(9)} MB`, ''].join('\n');
  }
}

const nameWidth = 12;
