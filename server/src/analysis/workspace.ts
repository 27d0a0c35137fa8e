import { readProcedure } from '../model/read-procedure.ts';
import { readSamples } from '../model/read-samples.ts';
import { readSystem } from '../model/read-system.ts';
import { fileKindOf } from '../schema/root.ts';
import { parse } from '../syntax/parse.ts';
import type { SyntaxTree } from '../syntax/tree.ts';
import { CircuitStore } from './circuit-store.ts';
import { joinSystems } from './join.ts';
import { resolveFile } from './resolve.ts';
import type { Absence, Case, FileView, ProcedureView, SamplesView, SystemView, Whereabouts } from './view.ts';

/**
 * The files at hand and what is known of them; the only place with a memory. Views are immutable and are made on demand: a file
 * whose own text and whose references are unchanged keeps its view, `===`.
 */
export class Workspace {
  readonly #trees = new Map<string, SyntaxTree>();
  readonly #absent = new Map<string, Absence>();
  readonly #views = new Map<string, Remembered>();
  readonly #circuits = new CircuitStore();
  /** Uris whose view is being made, so that files which include each other end. */
  readonly #making = new Set<string>();
  /** Views made inside a circle, kept until the outermost one is made: however many circles meet, each file is read once. */
  readonly #inCircles = new Map<string, FileView>();
  /** How often a file was asked for while its own view was being made. */
  #circles = 0;
  /** Counts changes; a view that was found fresh since the last change need not be looked at again. */
  #revision = 0;

  readonly #whereabouts = (uri: string): Whereabouts => (this.has(uri) ? 'here' : (this.#absent.get(uri) ?? 'absent'));

  set(uri: string, text: string): void {
    const before = this.#trees.get(uri);
    if (before?.text === text) return;
    this.#trees.set(uri, parse(text, before));
    this.#absent.delete(uri);
    this.#revision++;
  }

  delete(uri: string): void {
    if (this.#trees.delete(uri)) this.#revision++;
    this.#views.delete(uri);
    this.#circuits.forget(uri);
  }

  has(uri: string): boolean {
    return this.#trees.has(uri);
  }

  /** The host looked for the file and cannot give it. */
  absent(uri: string, why: Absence = 'absent'): void {
    this.#absent.set(uri, why);
  }

  uris(): string[] {
    return [...this.#trees.keys()];
  }

  view(uri: string): FileView | undefined {
    const tree = this.#trees.get(uri);
    if (!tree) return undefined;
    if (this.#making.has(uri)) {
      this.#circles++;
      return undefined;
    }
    const before = this.#views.get(uri);
    if (before?.revision === this.#revision) return before.view;
    const inCircle = this.#inCircles.get(uri);
    if (inCircle) {
      this.#circles++;
      return inCircle;
    }
    const circlesBefore = this.#circles;
    this.#making.add(uri);
    try {
      const view = before && this.#isFresh(before, tree) ? before.view : this.#make(uri, tree);
      // A view made inside a circle of references lacks the file that closes it, and is not kept.
      if (this.#circles === circlesBefore || this.#making.size === 1) {
        this.#views.set(uri, { view, on: this.#behind(view), revision: this.#revision });
      } else this.#inCircles.set(uri, view);
      return view;
    } finally {
      this.#making.delete(uri);
      if (this.#making.size === 0) this.#inCircles.clear();
    }
  }

  /** Files that views refer to and that were neither set nor found absent. */
  missing(): string[] {
    const wanted = new Set<string>();
    for (const uri of this.uris()) {
      const view = this.view(uri);
      for (const name of view ? referredTo(view) : []) {
        if (!this.#trees.has(name) && !this.#absent.has(name)) wanted.add(name);
      }
    }
    return [...wanted];
  }

  /** Files whose view changes when this one does. */
  dependents(uri: string): string[] {
    const found = new Set<string>();
    const queue = [uri];
    for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
      for (const other of this.uris()) {
        if (other === uri || found.has(other)) continue;
        const view = this.view(other);
        if (!view || !referredTo(view).includes(next)) continue;
        found.add(other);
        queue.push(other);
      }
    }
    // What a system leaves unused depends on the procedures that use it.
    const view = this.view(uri);
    if (view?.kind === 'procedure') for (const system of view.systems.keys()) if (this.has(system)) found.add(system);
    return [...found];
  }

  /** Whether nothing changed that a view was made from. */
  #isFresh({ view, on }: Remembered, tree: SyntaxTree): boolean {
    if (view.tree !== tree) return false;
    const now = this.#behind(view);
    return now.length === on.length && now.every((other, i) => other === on[i]);
  }

  /** The views a view is made from, in a settled order. */
  #behind(view: FileView): readonly (FileView | undefined)[] {
    return referredTo(view).map(uri => this.view(uri));
  }

  #make(uri: string, tree: SyntaxTree): FileView {
    switch (fileKindOf(uri)) {
      case 'system':
        return this.#systemView(uri, tree);
      case 'procedure':
        return this.#procedureView(uri, tree);
      case 'samples':
        return this.#samplesView(uri, tree);
      case undefined:
        return { kind: 'other', uri, tree, whereabouts: this.#whereabouts };
    }
  }

  #systemView(uri: string, tree: SyntaxTree): SystemView {
    const own = readSystem(tree.root, uri);
    const included = own.includes.map(ref => {
      const view = this.view(resolveFile(uri, ref.text) ?? '');
      return { ref, view: view?.kind === 'system' ? view : undefined };
    });
    const system = joinSystems(
      own,
      included.map(({ ref, view }) => ({ ref, system: view?.system })),
    );
    const circuits = this.#circuits.for(system);
    const usedBy = () => this.#proceduresOf(uri);
    return {
      kind: 'system',
      uri,
      tree,
      whereabouts: this.#whereabouts,
      system,
      includes: own.includes.map(ref => resolveFile(uri, ref.text)),
      included: included.map(one => one.view),
      circuit: variant => circuits.circuit(variant),
      get usedBy() {
        return usedBy();
      },
    };
  }

  #proceduresOf(system: string): readonly ProcedureView[] {
    return this.uris().flatMap(uri => {
      const view = fileKindOf(uri) === 'procedure' ? this.view(uri) : undefined;
      return view?.kind === 'procedure' && view.systems.has(system) ? [view] : [];
    });
  }

  #procedureView(uri: string, tree: SyntaxTree): ProcedureView {
    const procedure = readProcedure(tree.root, uri);
    const systems = new Map<string, SystemView | undefined>();
    const cases: Case[] = [];
    for (const { file, variants } of procedure.appliesTo) {
      const target = resolveFile(uri, file.text) ?? file.text;
      const view = this.view(target);
      const system = view?.kind === 'system' ? view : undefined;
      systems.set(target, system);
      if (!system) continue;
      for (const variant of system.system.variants) {
        if (variants !== 'all' && !variants.some(v => v.text === variant)) continue;
        cases.push(this.#case(system, variant, procedure));
      }
    }
    const continuesIn = [...procedure.endings.values()].flatMap(e => {
      const target = e.data.file && resolveFile(uri, e.data.file.text);
      return target === undefined ? [] : [target];
    });
    return { kind: 'procedure', uri, tree, whereabouts: this.#whereabouts, procedure, systems, cases, continuesIn };
  }

  /** Circuit and flow are worked out when a rule or a feature first asks for them. */
  #case(view: SystemView, variant: string, procedure: ProcedureView['procedure']): Case {
    const flows = () => this.#circuits.flowMaker(view.circuit(variant));
    let flow: Case['flow'] | undefined;
    return {
      view,
      system: view.system,
      variant,
      procedure,
      get circuit() {
        return view.circuit(variant);
      },
      get flow() {
        flow ??= flows().make(procedure);
        return flow;
      },
      after: (instructions, now) => flows().after(instructions, now),
    };
  }

  #samplesView(uri: string, tree: SyntaxTree): SamplesView {
    const samples = readSamples(tree.root, uri);
    const target = samples.of && resolveFile(uri, samples.of.text);
    const view = target === undefined ? undefined : this.view(target);
    return {
      kind: 'samples',
      uri,
      tree,
      whereabouts: this.#whereabouts,
      samples,
      of: target,
      procedure: view?.kind === 'procedure' ? view : undefined,
    };
  }
}

interface Remembered {
  readonly view: FileView;
  /** The views that it was made from. */
  readonly on: readonly (FileView | undefined)[];
  readonly revision: number;
}

/** Uris of the files that a view was made from. A procedure that goes on in another one does not depend on it. */
function referredTo(view: FileView): readonly string[] {
  switch (view.kind) {
    case 'system':
      return view.includes.flatMap(uri => uri ?? []);
    case 'procedure':
      return [...view.systems.keys(), ...view.continuesIn];
    case 'samples':
      return view.of === undefined ? [] : [view.of];
    case 'other':
      return [];
  }
}
