import { formatQuantity } from '../base/quantity/format.ts';
import type { Ranged } from '../base/ranged.ts';
import type { Node } from '../syntax/tree.ts';
import type { Value } from './common.ts';
import type { Reader } from './reader.ts';

/** Tells a value that the part cannot have. The part then counts as not computed, and all else still is. */
export function impossible(reader: Reader, node: Node | undefined, message: string, detail: string, help: string) {
  if (node) reader.report('impossible-part-value', reader.place(node.span), message, { detail, help });
  return undefined;
}

/** A resistance of which something hangs on its current: none at all would take any. */
export function loadOhms(reader: Reader, what: string, value: Value | undefined): Value | undefined {
  const cases = value?.cases.filter(({ is, place }) => {
    if (is.low > 0) return true;
    reader.report('impossible-part-value', place, `The resistance of ${what} is above zero`, zeroOhms);
    return false;
  });
  return cases?.length ? { cases } : undefined;
}

/** The same for one without cases. */
export function loadRange(reader: Reader, what: string, node: Node | undefined): Ranged | undefined {
  const is = reader.ranged(node, 'resistance');
  if (!is || is.low > 0) return is;
  return impossible(reader, node, `The resistance of ${what} is above zero`, zeroOhms.detail, zeroOhms.help);
}

/** A voltage across a junction, which has its direction by the terminals and not by a sign. */
export function junctionVolts(reader: Reader, key: string, node: Node | undefined): Ranged | undefined {
  const volts = reader.ranged(node, 'voltage');
  if (!volts || volts.low > 0) return volts;
  return impossible(
    reader,
    node,
    `A ${key} is above zero`,
    `Here it goes down to ${formatQuantity(volts.low, 'voltage')}. Which way the current flows is said by the terminals, A and K, and not by a sign.`,
    key === 'zener voltage' ? 'Write it as `36 V`.' : 'Write it as `0.7 V`.',
  );
}

/** A value that was read there, unless it is none or goes below zero: then `The rating of a fuse is above zero`. */
export function aboveZero<T extends number | Ranged>(
  reader: Reader,
  node: Node | undefined,
  value: T | undefined,
  what: string,
  example: string,
): T | undefined {
  if (value === undefined || (typeof value === 'number' ? value : value.low) > 0) return value;
  const written = node?.kind === 'scalar' ? node.text : '';
  return impossible(
    reader,
    node,
    `The ${what} is above zero`,
    `Here it is \`${written}\`.`,
    `Write it like \`${example}\`.`,
  );
}

const zeroOhms = {
  detail: 'With no resistance it would be a piece of wire, and take whatever current the supply can give.',
  help: 'Write the resistance from the data sheet, or leave it out if it is not known.',
};
