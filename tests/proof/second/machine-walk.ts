import type { Effect } from '../../../server/src/analysis/effect.ts';
import { effectOf } from '../../../server/src/analysis/faults/effect-of.ts';
import type { Fault } from '../../../server/src/analysis/faults/fault.ts';
import type { Wiring } from '../../../server/src/analysis/lower/wiring.ts';
import { formatQuantity } from '../../../server/src/base/quantity/format.ts';
import { parseLimit } from '../../../server/src/base/quantity/limit.ts';
import { partIn } from '../../../server/src/model/parts.ts';
import type { Nature, Procedure, Range, Start } from '../../../server/src/model/procedure.ts';
import type { Branch, StepData } from '../../../server/src/model/step.ts';
import type { System } from '../../../server/src/model/system.ts';
import { errorOf, takesValue, touched } from './branches.ts';
import { Electricity, type Now, type Places, type Shown } from './electricity.ts';
import { means, resultOf } from './names.ts';

/** What a machine of which every value is known can come to. */
export interface ConcreteEnd {
  readonly kind: 'ending' | 'stuck' | 'round' | 'unknown';
  /** The ending, or the step. */
  readonly at: string;
  readonly result: string;
  /** It is come to without an answer that the model leaves to chance. */
  readonly isTold: boolean;
}

export interface Sickness {
  /** All that is modelled, by which names are told. */
  readonly all: readonly Fault[];
  readonly fault?: Fault;
  readonly nature: Nature;
}

type Verdict = 'yes' | 'no' | 'maybe';

/**
 * One machine taken through a procedure, step by step, as DEVELOPERS.md says under "The proof": every value is known, so a step leads
 * where its one value leads, or where that value and the error of the meter lead, or where nothing tells, everywhere.
 */
export class MachineWalk {
  readonly electricity: Electricity;
  #isByADigit = false;
  readonly #nominal: Electricity;
  readonly #procedure: Procedure;
  readonly #system: System;
  readonly #sick: Sickness;

  constructor(procedure: Procedure, wiring: Wiring, sick: Sickness, places: Places) {
    this.#procedure = procedure;
    this.#system = wiring.system;
    this.#sick = sick;
    this.electricity = new Electricity(wiring, places);
    this.#nominal = new Electricity(wiring, () => 0);
  }

  /** What it comes to hangs on the last digit that a recorder keeps, or on a fuse that a meter blows. */
  get isDoubtful(): boolean {
    return this.#isByADigit || this.electricity.isOverloadedByMeter;
  }

  /** Where this machine can end from a way in; undefined where it does not show what leads there. */
  endsFrom(entry: Start | undefined, start: string): ReadonlyMap<string, ConcreteEnd> | undefined {
    const blown = this.#fusesAtEntry(entry);
    if (!blown) return undefined;
    const ends = new Map<string, ConcreteEnd>();
    const next = new Map<string, Set<string>>();
    const steps = new Map<string, string>();
    const over = new Set<string>();
    const visit = (name: string, now: Now, gone: readonly string[], isTold: boolean): string => {
      const place = `${name}|${[...now.states].join()}|${[...now.apart].sort().join()}|${gone.join()}`;
      const key = `${place}|${isTold}`;
      if (next.has(key)) return key;
      const ways = new Set<string>();
      next.set(key, ways);
      steps.set(key, name);
      const end = (kind: ConcreteEnd['kind'], at: string, result: string, told: boolean) => {
        over.add(key);
        const one = { kind, at, result, isTold: told };
        const id = `${kind} ${at}`;
        if (!ends.get(id)?.isTold) ends.set(id, one);
      };
      const ending = this.#procedure.endings.get(name)?.data;
      const step = this.#procedure.steps.get(name)?.data;
      if (ending) end('ending', name, resultOf(ending, this.#sick.fault), isTold);
      else if (!step) end('unknown', name, 'unknown', isTold);
      else {
        const { after, blown, taken, isOpen } = this.#do(step, now, gone);
        const told = isTold && !isOpen;
        for (const branch of taken) {
          if (branch === 'stuck') end('stuck', name, 'stuck', told);
          else if (branch === 'unknown') end('unknown', name, 'unknown', told);
          else ways.add(visit(branch.target!.text, after, blown, told));
        }
      }
      return key;
    };
    visit(start, this.#atRest(), blown, true);
    for (const key of goingRound(next, over)) {
      ends.set('round', { kind: 'round', at: steps.get(key)!, result: 'stuck', isTold: key.endsWith('true') });
    }
    return ends;
  }

  #atRest(): Now {
    const states = new Map<string, string>();
    for (const { id, number, states: own } of this.#system.conditions.values())
      states.set(id, number?.rest ?? own[0]!.text);
    for (const part of this.#system.parts.values()) {
      const data = partIn(part, this.electricity.wiring.variant);
      if (data.kind === 'coded switches') states.set(part.id, 'idle');
      if (data.kind === 'switch' && data.positions[0]) states.set(part.id, data.positions[0].text);
    }
    return { states, apart: new Set() };
  }

  /** The fuses that have gone when the technician comes; undefined where nobody comes. */
  #fusesAtEntry(entry: Start | undefined): readonly string[] | undefined {
    const { fault, nature } = this.#sick;
    if (!fault || !entry) return [];
    if (entry.nature && entry.nature !== nature) return undefined;
    const seen = after({ set: entry.set }, this.#atRest());
    const blown = this.#blown(seen, true, []);
    if (this.#isNamed(entry.shows)) return blown;
    if (entry.when) return this.#test(entry.when, seen, this.#effects(true, blown)) === 'no' ? undefined : blown;
    return entry.shows.length === 0 ? blown : undefined;
  }

  #do(step: StepData, before: Now, gone: readonly string[]): Done {
    const now = after(step, before);
    const { fault, nature } = this.#sick;
    const comes =
      step.action.verb === 'record' ||
      step.action.verb === 'ask' ||
      step.provoke.some(({ what }) => this.#isNamed(what));
    const isPresent = fault !== undefined && (nature === 'hard' || comes);
    const blown = this.#blown(now, isPresent, gone);
    const done = (taken: Done['taken'], isOpen = false): Done => ({ after: now, blown, taken, isOpen });
    if (step.needs && !step.needs.some(all => all.every(one => isIn(before.states.get(one.name.text), one.states))))
      return done(['stuck']);
    const [first] = step.branches;
    if (!first) return done(['stuck']);
    if (first.match.on === 'always') return done([first]);
    const effects = this.#effects(isPresent, blown);
    switch (step.action.verb) {
      case 'measure':
      case 'read':
        return done(this.#shown(step, now, effects));
      case 'record': {
        const taken = this.#recorded(step, now, gone, blown);
        return done(taken, taken.length > 1);
      }
      default: {
        const taken = this.#answered(step, now, effects);
        return done(taken, taken.length > 1);
      }
    }
  }

  #effects(isPresent: boolean, blown: readonly string[]): readonly Effect[] {
    const { fault } = this.#sick;
    return [...(isPresent && fault ? [effectOf(fault)] : []), ...blown.map(name => this.#opened(name))];
  }

  #opened(fuse: string): Effect {
    return effectOf(this.#sick.all.find(({ owner, kind }) => owner === fuse && /^(blown|tripped)$/.test(kind))!);
  }

  /** Which fuse goes is a matter of nominal values. */
  #blown(now: Now, isPresent: boolean, before: readonly string[]): readonly string[] {
    if (!isPresent || !this.#sick.fault) return before;
    const more = this.#nominal.overloaded(1.35, now, this.#effects(true, before), fuse => this.#opened(fuse));
    return [...new Set([...before, ...more])].sort();
  }

  #isNamed(names: readonly { text: string }[]): boolean {
    const { fault, all } = this.#sick;
    return fault !== undefined && names.some(({ text }) => means(text, fault, all));
  }

  // What a meter or a scan tool shows.

  #shown({ action, branches }: StepData, now: Now, effects: readonly Effect[]): Done['taken'] {
    const { meter } = this.#procedure;
    if (action.verb === 'read') {
      const [module, datum] = [action.module!.text, action.datum!.text];
      if (action.expect) {
        const state = this.#scanned(module, datum, now, effects);
        if (state === undefined) return ['unknown'];
        const own = branches.find(({ key }) => key.text === state);
        const within = isIn(state, action.expect) ? branches.find(({ match }) => match.on === 'within') : undefined;
        return [own ?? within ?? branches.find(({ match }) => match.on === 'otherwise') ?? 'stuck'];
      }
      const volts = this.#fromPin(module, datum, now, effects);
      if (volts === 'floating') return at(0);
      return typeof volts === 'number' ? at(volts) : ['unknown'];
    }
    if (action.verb !== 'measure') return ['unknown'];
    const { red, black, around, measure } = action;
    const el = this.electricity;
    const word = (text: string): Done['taken'] => [
      branches.find(({ key }) => key.text === text) ??
        branches.find(({ match }) => match.on === 'otherwise') ??
        'stuck',
    ];
    const none = (shown: Exclude<Shown, number>): Done['taken'] => [
      shown === 'live' || shown === 'no contact' ? 'stuck' : 'unknown',
    ];
    switch (measure) {
      case 'voltage':
      case 'voltage drop': {
        const volts = el.volts(red!, black!, meter.inputOhms, now, effects);
        if (volts === 'floating') return at(0, meter.voltage);
        return typeof volts === 'number' ? at(volts, meter.voltage) : none(volts);
      }
      case 'test lamp': {
        const volts = el.lampVolts(red!, black!, meter.testLamp.ohms, now, effects);
        if (typeof volts !== 'number') return none(volts);
        const size = Math.abs(volts);
        return word(size >= meter.testLamp.litFromV ? 'lit' : size >= meter.testLamp.dimFromV ? 'dim' : 'dark');
      }
      case 'current': {
        const amps = around
          ? el.ampsIn(around.text, now, effects)
          : el.ampsBetween(red!, black!, meter.current.burdensOhms[0]!, now, effects);
        return typeof amps === 'number' ? at(amps, meter.current) : none(amps);
      }
      case 'resistance':
      case 'continuity': {
        const ohms = el.ohms(red!, black!, meter.resistance.overLimitOhms, now, effects);
        const isHeard = measure === 'continuity' && branches.some(({ match }) => match.on === 'answer');
        if (ohms === 'over limit') return isHeard ? word('silent') : at(Number.POSITIVE_INFINITY);
        if (typeof ohms !== 'number') return none(ohms);
        // The leads come on top, zeroed or not.
        const most = ohms + meter.resistance.leadsOhms;
        if (isHeard) {
          const heard = [ohms, most].map(one => (one < meter.continuity.belowOhms ? 'beeps' : 'silent'));
          return [...new Set(heard)].flatMap(word);
        }
        return at(ohms, meter.resistance, most);
      }
    }

    function at(value: number, range?: Range, most = value): Done['taken'] {
      const limit = 'limits' in action ? action.limits?.limit : undefined;
      return touched(branches, limit, value - errorOf(value, range), most + errorOf(most, range));
    }
  }

  #fromPin(module: string, datum: string, now: Now, effects: readonly Effect[]): Shown | undefined {
    const from = this.#module(module)?.scanData.get(datum)?.from;
    return from && this.electricity.pinVolts(module, from.text, now, effects);
  }

  /** '' where it shows none of its states; undefined where nothing is known of it. */
  #scanned(module: string, datum: string, now: Now, effects: readonly Effect[]): string | undefined {
    const data = this.#module(module)?.scanData.get(datum);
    if (!data) return undefined;
    if (!this.electricity.isPowered(module, now, effects)) return '';
    if (data.follows) return now.states.get(data.follows.text) ?? '';
    const shown = this.#fromPin(module, datum, now, effects);
    if (shown === 'not settled' || shown === undefined) return undefined;
    const volts = typeof shown === 'number' ? shown : 0;
    return data.states.find(({ limit }) => limit && volts >= limit.low && volts <= limit.high)?.name.text ?? '';
  }

  #module(id: string) {
    const part = this.#system.parts.get(id);
    const data = part && partIn(part, this.electricity.wiring.variant);
    return data?.kind === 'module' ? data : undefined;
  }

  // What somebody sees, hears or tells.

  #answered({ action, branches }: StepData, now: Now, effects: readonly Effect[]): Done['taken'] {
    const { fault, nature } = this.#sick;
    const isHidden =
      fault !== undefined && fault.changes.length > 0 && (action.verb === 'inspect' || nature === 'intermittent');
    const judged = branches.map(branch => ({ branch, ...this.#judged(branch, isHidden, now, effects) }));
    const of = (...verdicts: string[]) => judged.flatMap(one => (verdicts.includes(one.verdict) ? [one.branch] : []));
    const given = of('yes', 'maybe');
    // What surely shows itself leaves no room for an answer that says nothing.
    const taken = of('yes').length > 0 ? given : [...given, ...of('says nothing')];
    return taken.length > 0 ? taken : ['stuck'];
  }

  #judged(
    { shows, when, match }: Branch,
    isHidden: boolean,
    now: Now,
    effects: readonly Effect[],
  ): { verdict: Verdict | 'says nothing' } {
    if (match.on === 'otherwise') return { verdict: 'says nothing' };
    if (shows.length > 0 && this.#isNamed(shows)) return { verdict: isHidden ? 'maybe' : 'yes' };
    if (when) return { verdict: this.#test(when, now, effects) };
    return { verdict: shows.length > 0 ? 'no' : 'says nothing' };
  }

  #test(test: NonNullable<Branch['when']>, now: Now, effects: readonly Effect[]): Verdict {
    const verdicts = test.map(parts =>
      worst(parts.map(({ name, states }) => this.#holds(name.text, states, now, effects))),
    );
    return verdicts.includes('yes') ? 'yes' : verdicts.includes('maybe') ? 'maybe' : 'no';
  }

  #holds(name: string, wanted: readonly { text: string }[], now: Now, effects: readonly Effect[]): Verdict {
    const own = now.states.get(name);
    if (own !== undefined) return isIn(own, wanted) ? 'yes' : 'no';
    const part = this.#system.parts.get(name);
    if (part) {
      const data = partIn(part, this.electricity.wiring.variant);
      if (data.kind === 'module')
        return isIn(this.electricity.isPowered(name, now, effects) ? 'on' : 'off', wanted) ? 'yes' : 'no';
      const works = this.electricity.shareOfSupply(name, now, effects) >= 2 / 3;
      return isIn(works ? 'on' : 'off', wanted) ? 'yes' : 'no';
    }
    const cut = name.indexOf(' ');
    const [module, datum] = [name.slice(0, cut), name.slice(cut + 1)];
    if ((this.#module(module)?.scanData.get(datum)?.states.length ?? 0) > 0) {
      const state = this.#scanned(module, datum, now, effects);
      return state !== undefined && isIn(state, wanted) ? 'yes' : 'no';
    }
    const volts = this.#fromPin(module, datum, now, effects);
    if (volts === undefined || (typeof volts === 'string' && volts !== 'floating')) return 'no';
    const value = volts === 'floating' ? 0 : volts;
    const fits = wanted.some(({ text }) => {
      const limit = parseLimit(text, 'voltage').value;
      return limit !== undefined && takesValue(limit, value);
    });
    return fits ? 'yes' : 'no';
  }

  // What a recorder keeps.

  #recorded(
    { action, branches }: StepData,
    now: Now,
    gone: readonly string[],
    blown: readonly string[],
  ): Done['taken'] {
    if (action.verb !== 'record') return ['unknown'];
    const { fault, nature } = this.#sick;
    const comes = fault !== undefined && nature === 'intermittent';
    const moved = comes
      ? action.channels
          .map(({ text }) => text)
          .filter(name => {
            // A fuse that the fault blows is whole until it comes.
            const without = this.#channel(name, now, this.#effects(false, gone));
            const within = this.#channel(name, now, this.#effects(true, blown));
            if (typeof without === 'string' || typeof within === 'string') return without !== within;
            const [a, b] = [without, within].map(volts => formatQuantity(volts, 'voltage'));
            if (a !== b && Math.abs(without - within) < 0.01 * Math.abs(without)) this.#isByADigit = true;
            return a !== b;
          })
      : [];
    const isEvent = action.events.length === 0 || action.events.some(({ channel }) => moved.includes(channel.text));
    const rank = (name: string) => {
      const cut = name.indexOf(' ');
      const data = this.#module(name.slice(0, cut));
      if (cut < 0) return this.#module(name.slice(0, name.lastIndexOf('.'))) ? 2 : 1;
      const from = data?.scanData.get(name.slice(cut + 1))?.from?.text;
      return from !== undefined && from === data?.powered?.pin.text ? 0 : 1;
    };
    const first = isEvent ? moved.filter(name => rank(name) === Math.min(...moved.map(rank))) : [];
    const wanted = first.length > 0 ? first.map(name => `${name} moved first`) : ['no event'];
    const taken = branches.filter(({ key }) => wanted.includes(key.text));
    if (taken.length > 0) return taken;
    return [branches.find(({ match }) => match.on === 'otherwise') ?? 'stuck'];
  }

  #channel(name: string, now: Now, effects: readonly Effect[]): string | number {
    const cut = name.indexOf(' ');
    const [module, datum] = [name.slice(0, cut), name.slice(cut + 1)];
    const data = this.#module(module)?.scanData.get(datum);
    if (data && data.states.length > 0) return this.#scanned(module, datum, now, effects) ?? '';
    const volts = this.#fromPin(module, datum, now, effects);
    // Elimination leaves a residue where there is nothing.
    return typeof volts === 'number' ? (Math.abs(volts) < 1e-6 ? 0 : volts) : '';
  }
}

interface Done {
  readonly after: Now;
  readonly blown: readonly string[];
  readonly taken: readonly (Branch | 'stuck' | 'unknown')[];
  /** Nothing that is known tells between them. */
  readonly isOpen: boolean;
}

type Refs = readonly { readonly text: string }[];

function isIn(state: string | undefined, wanted: Refs): boolean {
  return wanted.some(({ text }) => text === state);
}

function worst(verdicts: readonly Verdict[]): Verdict {
  return verdicts.includes('no') ? 'no' : verdicts.includes('maybe') ? 'maybe' : 'yes';
}

/** What is set, then what is put together, then what is taken apart. */
function after(
  step: Pick<StepData, 'set'> & Partial<Pick<StepData, 'connect' | 'refit' | 'disconnect' | 'remove'>>,
  { states, apart }: Now,
): Now {
  const { set, connect = [], refit = [], disconnect = [], remove = [] } = step;
  const now = new Map(states);
  for (const { name, state } of set) if (now.has(name.text)) now.set(name.text, state.text);
  const together = [...connect, ...refit].map(({ text }) => text);
  const off = new Set([...apart].filter(name => !together.includes(name)));
  for (const { text } of [...disconnect, ...remove]) off.add(text);
  return { states: now, apart: off };
}

/** Places from which no way leads to an end. */
function goingRound(next: ReadonlyMap<string, ReadonlySet<string>>, over: ReadonlySet<string>): readonly string[] {
  const out = new Set(over);
  for (let before = -1; before < out.size; ) {
    before = out.size;
    for (const [key, ways] of next) if ([...ways].some(way => out.has(way))) out.add(key);
  }
  return [...next.keys()].filter(key => !out.has(key));
}
