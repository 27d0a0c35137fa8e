import { closest } from '../base/closest.ts';

/** The command cannot be carried out as it was given: said in one sentence, with what to do, and exit status 2. */
export class WrongUse extends Error {
  readonly help: string | undefined;

  constructor(message: string, help?: string) {
    super(message);
    this.help = help;
  }
}

/** A name that is not there, with the nearest one that is, or else a few of those that are. */
export function unknown(what: string, name: string, names: Iterable<string>, where: string): WrongUse {
  const all = [...names];
  const near = closest(name, all);
  const some = all.slice(0, mostNamed).map(one => `\`${one}\``);
  const more = all.length > some.length ? ' and others' : '';
  const help = near ? `did you mean \`${near}\`?` : some.length > 0 ? `there are ${some.join(', ')}${more}` : undefined;
  return new WrongUse(`There is no ${what} \`${name}\` in ${where}`, help);
}

const mostNamed = 8;
