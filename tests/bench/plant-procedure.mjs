/**
 * The yearly service of the invented plant: 1,000 steps on 17,000 lines, a section for each circuit and each pump. Clean under
 * every rule; only a few hoses of the system are named nowhere.
 */
import {
  cavitiesOf,
  circuits,
  numbers,
  plugOf,
  relays,
  relayWireOf,
  studOf,
  systemName,
  titleOf,
  wireOf,
} from './plant-system.mjs';

export const procedureName = 'plant-service.procedure.yaml';

const stepCount = 1000;

export function procedureText() {
  const sections = [...numbers(1, circuits).map(circuitSection), ...numbers(1, relays).map(relaySection)];
  const used = sections.reduce((sum, { steps }) => sum + steps.length, 0);
  const last = numbers(1, stepCount - used);
  sections.push({
    steps: last.map(n => closingStep(n, n < last.length ? `closing-${n + 1}` : 'all-sound')),
    endings: [],
  });
  const firstOf = sections.map(({ steps }) => steps[0].name);
  const texts = sections.flatMap(({ steps }, i) =>
    steps.map(step => stepText(step).replaceAll('NEXT', firstOf[i + 1])),
  );
  return `# Yearly service of the standby plant, a section for each circuit. Every name and value here is made up.
format: 1
procedure: plant-service
title: Yearly service of the standby plant
applies to:
  ${systemName}: all
starts from:
  - symptom: the yearly service is due
tools: [multimeter, back-probe pins, current clamp, recorder]
cautions:
  - warning: Loads start by themselves; keep clear of fans and pumps
  - danger: Battery gas explodes; no flame, no spark, wear eye protection
start: ${firstOf[0]}

steps:
${texts.join('\n')}
endings:
${sections.flatMap(({ endings }) => endings).join('\n')}
  all-sound: { repaired: Every circuit of the plant is sound }
`;
}

const move = 'The load starts during this test; keep clear of moving and hot parts';

function circuitSection(n) {
  const [feed, back] = cavitiesOf(n);
  const [title, plug, stud, wire] = [titleOf(n), plugOf(n), studOf(n), wireOf(n)];
  const to = name => `${name}-${n}`;
  const on = { key: 'run', [`S${n}`]: 'pressed' };
  const off = { key: 'off', [`S${n}`]: 'released' };
  const volts = (name, at, limits, within, dead, more = {}) => ({
    name: to(name),
    title: `Voltage at ${at[0]} of ${title}, switch pressed`,
    set: on,
    cautions: move,
    measure: 'voltage',
    red: `${at[0]} (back-probe)`,
    black: at[1] ?? stud,
    limits,
    next: { within: to(within), 'below 1 V': to(dead), otherwise: to('mend') },
    ...more,
  });
  const repair = `connect: [${plug}], confirm: ${to('confirm')}`;
  return {
    steps: [
      {
        name: to('look'),
        title: `Look at the harness of ${title}`,
        inspect: [`W${wire + 2}`, `W${wire + 3}`, plug, `hose-${n}`],
        next: {
          'damage found': { 'go to': to('mend'), shows: [`W${wire + 2}`, `W${wire + 3}`] },
          'corrosion found': { 'go to': to('mend'), shows: [plug] },
          'all sound': to('ask'),
        },
      },
      {
        name: to('ask'),
        title: `Ask the crew about ${title}`,
        ask: `Did ${title} ever stop by itself since the last service?`,
        next: {
          never: to('supply'),
          'in damp weather': to('record'),
          'while the plant shakes': to('record'),
          'cannot say': to('supply'),
        },
      },
      {
        name: to('record'),
        title: `Record ${title} while the plant runs`,
        set: on,
        cautions: move,
        record: { channels: [`E${n}.1`, `F${n}.2`], for: '10 min', within: '200 ms' },
        provoke: { wiggle: [plug, `W${wire + 2}`], heat: [`S${n}`] },
        next: {
          [`E${n}.1 moved first`]: to('mend'),
          [`F${n}.2 moved first`]: to('replace-fuse'),
          'no event': to('supply'),
        },
      },
      volts('supply', [`F${n}.1`], '10.9 V .. 14.1 V', 'fuse', 'mend'),
      volts('fuse', [`F${n}.2`], '10.9 V .. 14.1 V', 'switch-in', 'replace-fuse'),
      volts('switch-in', [`S${n}.1`], '10.8 V .. 14.1 V', 'switch-out', 'mend'),
      volts('switch-out', [`S${n}.2`], '10.7 V .. 14.1 V', 'load', 'replace-switch', {
        late: '10.6 V .. 14.1 V',
      }),
      volts('load', [`E${n}.1`, `E${n}.2 (back-probe)`], '10.5 V .. 14.1 V', 'return', 'mend'),
      {
        name: to('return'),
        title: `Voltage drop of the return of ${title}, switch pressed`,
        set: on,
        cautions: move,
        measure: 'voltage drop',
        red: `E${n}.2 (back-probe)`,
        black: stud,
        limits: 'below 0.3 V',
        next: { within: to('current'), otherwise: to('mend') },
      },
      {
        name: to('current'),
        title: `Current of ${title}, switch pressed`,
        set: on,
        cautions: move,
        measure: 'current',
        around: `W${wire + 2}`,
        limits: '1.2 A .. 6 A',
        next: { within: to('feel'), 'below 1 A': to('mend'), otherwise: to('replace-load') },
      },
      {
        name: to('feel'),
        title: `Try the switch of ${title}`,
        set: on,
        cautions: move,
        operate: 'Press and release the switch ten times and listen to the load',
        next: {
          'follows the switch each time': to('ohms'),
          'stays off at times': to('replace-switch'),
          'stays on': to('replace-switch'),
        },
      },
      {
        name: to('ohms'),
        title: `Resistance of ${title}, plug apart`,
        set: off,
        disconnect: [plug],
        measure: 'resistance',
        red: `${feed} (E${n} side)`,
        black: `${back} (E${n} side)`,
        limits: '2.6 Ω .. 7.5 Ω',
        next: { within: to('short'), OL: to('replace-load'), otherwise: to('replace-load') },
      },
      {
        name: to('short'),
        title: `Feed wire of ${title} to ground, plug apart`,
        needs: off,
        measure: 'resistance',
        red: `${feed} (S${n} side)`,
        black: stud,
        limits: 'OL',
        next: { within: to('confirm'), otherwise: to('mend') },
      },
      confirmStep(to, `Confirm that ${title} follows its switch`, off, plug),
    ],
    endings: [
      `  ${to('mend')}: { mend: [W${wire}, W${wire + 1}, W${wire + 2}, W${wire + 3}, ${plug}], ${repair} }`,
      `  ${to('replace-fuse')}: { replace: [F${n}], confirm: ${to('confirm')} }`,
      `  ${to('replace-switch')}: { replace: [S${n}], confirm: ${to('confirm')} }`,
      `  ${to('replace-load')}: { replace: [E${n}], ${repair} }`,
    ],
  };
}

function relaySection(n) {
  const [title, stud, wire] = [`pump ${n}`, studOf(n), relayWireOf(n)];
  const to = name => `${name}-pump-${n}`;
  const on = { key: 'run', [`B${n}`]: 'on' };
  const volts = (name, at, limits, within, dead, more = {}) => ({
    name: to(name),
    title: `Voltage at ${at[0]} of ${title}, lever at on`,
    set: on,
    cautions: move,
    measure: 'voltage',
    red: `${at[0]} (back-probe)`,
    black: at[1] ?? stud,
    limits,
    next: { within: to(within), 'below 1 V': to(dead), otherwise: to('mend') },
    ...more,
  });
  return {
    steps: [
      {
        name: to('look'),
        title: `Look at ${title} and its wiring`,
        inspect: [`W${wire + 4}`, `W${wire + 5}`, `M${n}`, `K${n}`],
        next: {
          'damage found': { 'go to': to('mend'), shows: [`W${wire + 4}`, `W${wire + 5}`] },
          'all sound': to('ask'),
        },
      },
      {
        name: to('ask'),
        title: `Ask the crew about ${title}`,
        ask: `Did ${title} ever stop by itself since the last service?`,
        next: { never: to('seen'), 'in damp weather': to('mend'), 'cannot say': to('seen') },
      },
      {
        name: to('seen'),
        title: `Lever ${n} in the scan data, lever at on`,
        set: on,
        cautions: move,
        read: `A1 lever ${n}`,
        expect: 'on',
        next: { within: to('lever'), otherwise: to('replace-lever') },
      },
      volts('lever', [`B${n}.1`], '1.4 V .. 2.2 V', 'supply', 'replace-lever'),
      volts('supply', [`F${100 + n}.1`], '10.8 V .. 14.1 V', 'fuse', 'mend'),
      volts('fuse', [`F${100 + n}.2`], '10.8 V .. 14.1 V', 'coil', 'replace-fuse'),
      volts('coil', [`K${n}.86`, `K${n}.85 (back-probe)`], '10.7 V .. 14.1 V', 'contact', 'mend'),
      volts('contact', [`K${n}.30`, `K${n}.87 (back-probe)`], 'below 0.2 V', 'pump', 'replace-relay', {
        next: { within: to('pump'), otherwise: to('replace-relay') },
      }),
      volts('pump', [`M${n}.1`], '10.2 V .. 14.1 V', 'return', 'mend', { late: '10.1 V .. 14.1 V' }),
      volts('return', [`M${n}.2`], 'below 0.3 V', 'current', 'mend', {
        measure: 'voltage drop',
        next: { within: to('current'), otherwise: to('mend') },
      }),
      {
        name: to('current'),
        title: `Current of ${title}, lever at on`,
        set: on,
        cautions: move,
        measure: 'current',
        around: `W${wire + 5}`,
        limits: '3 A .. 7 A',
        next: { within: to('ohms'), 'below 1 A': to('mend'), otherwise: to('replace-pump') },
      },
      {
        name: to('ohms'),
        title: `Resistance of ${title}, unplugged`,
        set: { key: 'off', [`B${n}`]: 'idle' },
        disconnect: [`M${n}`],
        measure: 'resistance',
        red: `M${n}.1 (part side)`,
        black: `M${n}.2 (part side)`,
        limits: '1.9 Ω .. 3.1 Ω',
        next: { within: to('short'), OL: to('replace-pump'), otherwise: to('replace-pump') },
      },
      {
        name: to('short'),
        title: `Feed wire of ${title} to ground, unplugged`,
        needs: { key: 'off' },
        measure: 'resistance',
        red: `M${n}.1 (harness side)`,
        black: stud,
        limits: 'OL',
        next: { within: to('confirm'), otherwise: to('mend') },
      },
      confirmStep(to, `Confirm that ${title} follows its lever`, { key: 'off', [`B${n}`]: 'idle' }, `M${n}`),
    ],
    endings: [
      `  ${to('mend')}: { mend: [W${wire}, W${wire + 4}, W${wire + 5}], connect: [M${n}], confirm: ${to('confirm')} }`,
      // Up to here everything is still plugged in.
      ...[`fuse F${100 + n}`, `lever B${n}`, `relay K${n}`].map(both => {
        const [what, part] = both.split(' ');
        return `  ${to(`replace-${what}`)}: { replace: [${part}], confirm: ${to('confirm')} }`;
      }),
      `  ${to('replace-pump')}: { replace: [M${n}], connect: [M${n}], confirm: ${to('confirm')} }`,
    ],
  };
}

function confirmStep(to, title, set, plug) {
  return {
    name: to('confirm'),
    title,
    connect: [plug],
    set,
    operate: 'Switch on and off three times and leave it off',
    next: { 'runs each time': 'NEXT', 'stays still': to('look') },
  };
}

function closingStep(n, next) {
  return {
    name: `closing-${n}`,
    title: `Closing check ${n}`,
    do: `Sign sheet ${n} of the service book`,
    next,
  };
}

/** A step as people write it, with a blank line before it; a list stands in one line, a map on lines of its own. */
function stepText({ name, cautions, late, ...rest }) {
  const step = {
    title: rest.title,
    minutes: 3,
    ...(rest.measure && { tools: ['multimeter', 'back-probe pins'] }),
    ...rest,
    ...(cautions && { cautions: [{ warning: cautions }] }),
    ...(late && { 'by variant': { late: { limits: late } } }),
  };
  const note = `  # ${step.title}: see the wiring table of the board, and write what was read into the service book`;
  return [note, `  ${name}:`, ...mapLines(step, '    '), ''].join('\n');
}

function mapLines(map, indent) {
  return Object.entries(map).flatMap(([name, value]) => {
    const key = name === 'next' ? 'then' : name;
    if (typeof value !== 'object') return [`${indent}${key}: ${value}`];
    if (!Array.isArray(value)) return [`${indent}${key}:`, ...mapLines(value, `${indent}  `)];
    if (typeof value[0] !== 'object') return [`${indent}${key}: [${value.join(', ')}]`];
    return [
      `${indent}${key}:`,
      ...value.flatMap(each => mapLines(each, `${indent}    `).map((l, i) => (i ? l : `${indent}  - ${l.trim()}`))),
    ];
  });
}
