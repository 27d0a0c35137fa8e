import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

/**
 * Where every published value stands that the computation is checked against, by subject. Each file names the source beside its check,
 * and says so where a value is from memory or common practice. `has` are words of the sources that are to be found there, so that
 * this list stays true; `not` says what of the subject has no check, and why.
 */
const index: readonly { subject: string; file: string; has: readonly string[]; not?: string }[] = [
  {
    subject: 'wire: American gauge, diameter, ohms, area; stranded',
    file: 'wire-tables',
    has: ['ASTM B258', 'UL 1581'],
  },
  { subject: 'wire: IEC 60228 classes 1, 2, 5 and 6, and its temperature factor', file: 'wire-tables', has: ['annex'] },
  { subject: 'wire: IEC 60228 class 5, tinned', file: 'parts', has: ['IEC 60228:2004, class 5, tinned'] },
  {
    subject: 'wire: road-vehicle cable',
    file: 'wire-tables',
    has: ['midmarchartsbooks.org', 'from memory'],
    not: 'all but 1.5 mm² are from memory, and held to a range only',
  },
  { subject: 'wire: the same drop in percent', file: 'parts', has: ['2.21 %'] },
  {
    subject: 'metals: temperature coefficients, resistivity of copper',
    file: 'parts',
    has: ['Temperature coefficients'],
  },
  { subject: 'metals: a copper wire at 35 °C', file: 'wire-tables', has: ['0.004041'] },
  {
    subject: 'resistors: colour code, preferred values',
    file: 'parts',
    has: ['IEC 60062', 'IEC 60063'],
    not: 'colours and series as such have no place in the product: it has no function that names a band or the next value',
  },
  {
    subject: 'fuses: cold resistance',
    file: 'fuse-table',
    has: ['mvwautotechniek.nl', 'Trade bulletin', 'data sheet'],
    not: 'the colours of ratings have no place in the product',
  },
  { subject: 'fuses: ratings', file: 'parts', has: ['thelingofpower.blogspot.com'] },
  {
    subject: 'batteries: voltage by charge',
    file: '../analysis/battery',
    has: ['Discover Battery', 'motorhome.com'],
    not: 'the density of the acid and 0.024 V for 10 °F have no place in the product',
  },
  { subject: 'batteries: terminals while charged', file: 'parts', has: ['University Physics Volume 2'] },
  { subject: 'relays: operate, release, coil, contact drop, suppression', file: 'relays', has: ['xonelec.com'] },
  { subject: 'lamps: cold and hot', file: '../circuit/curves', has: ['physicsforums 885068', 'kfz-tech.de'] },
  { subject: 'lamps: inrush', file: 'parts', has: ['lamptech.co.uk'] },
  { subject: 'platinum thermometers', file: 'sensors', has: ['IEC 60751:2022'] },
  {
    subject: 'thermistors: table, three points, beta',
    file: 'sensors',
    has: ['109SS', 'LDT-5525', 'notes.tk233.xyz'],
    not: 'the form of four terms of an optical maker (optisky.com) prints no points, and is written as a table',
  },
  { subject: 'thermocouples of types K and T', file: 'sensors', has: ['NIST ITS-90', 'type_t.tab'] },
  { subject: 'meters: loading', file: 'meters', has: ['34970A', 'XDM2041'] },
  {
    subject: 'meters: loading, burden, diode and continuity test, compound error',
    file: '../analysis/meters',
    has: ['ch. 8', 'p. 31'],
  },
  {
    subject: 'meters: parallel paths, an ohmmeter on a live circuit',
    file: '../circuit/topology',
    has: ['live circuit'],
  },
  { subject: 'signals: 4 to 20 mA, NE 43', file: 'meters', has: ['NE 43', '4 + 16'] },
  { subject: 'signals: 5 V ratiometric, working span', file: '../analysis/sensors', has: ['657765'] },
  { subject: 'signals: 5 V ratiometric, bands of faults, pull-up and pull-down', file: 'meters', has: ['A17700'] },
  { subject: 'textbook circuits: 64 circuits, 258 quantities', file: 'circuits', has: ['circuits.json'] },
  { subject: 'textbook circuits as tables of a system', file: 'values', has: ['circuits.json'] },
  { subject: 'textbook circuits with their faults derived', file: '../faults/textbook', has: ['circuits.json'] },
  { subject: 'textbook faults in words: open and shorted branches', file: 'worded-faults', has: ['DOE-HDBK-1011'] },
  {
    subject: 'worst case: seven published analyses and the traps',
    file: 'worst-case',
    has: ['worstcase.json', 'notebook'],
  },
  {
    subject: 'worst case: states that change over the tolerances',
    file: '../analysis/sampled-machines',
    has: ['seed'],
  },
  { subject: 'a general-purpose simulator, healthy', file: 'simulator', has: ['general-purpose simulator'] },
  { subject: 'a general-purpose simulator: relays, pins, sensors', file: 'simulator-parts', has: ['ngspice 45'] },
  { subject: 'a general-purpose simulator, with faults', file: 'simulator-faults', has: ['ngspice 45'] },
];

it.each(index)('$subject: tests/reference/$file.test.ts', ({ file, has }) => {
  const text = readFileSync(fileURLToPath(new URL(`./${file}.test.ts`, import.meta.url)), 'utf8');
  for (const words of has) expect(text).toContain(words);
});
