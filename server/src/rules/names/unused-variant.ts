import { smallSystem, smallWires, unusedRule } from './unused.ts';

const rest = `
conditions: { key: [off, run] }${smallWires}
  - W3: E1.2 to G1.-, 1.5 mm², 1 m
`;

export const unusedVariant = unusedRule({
  id: 'unused-variant',
  noun: 'variant',
  title: 'A variant that no procedure applies to',
  explanation: `
Other procedures apply to this system, and none to this variant of it, so nothing that is written about it is ever checked by a step. Either a
procedure was not told of a new variant, or machines of this variant are no longer built.

Add it under \`applies to\` of a procedure, or delete it here and wherever \`only\` or \`by variant\` name it.`,
  bad: `${smallSystem}
variants:
  plain: Without a relay
  relayed: With a relay
# ^^^^^^^ hint unused-variant: No procedure applies to the variant \`relayed\`${rest}`,
  good: `${smallSystem}
variants:
  plain: Without a relay${rest}`,
  appliesTo: 'plain',
  *unused({ uri, system }, _used, usedBy) {
    const cases = usedBy.flatMap(procedure => procedure.cases);
    const covered = new Set(cases.filter(one => one.view.uri === uri).map(one => one.variant));
    // A procedure of which no case could be read may be meant for every variant.
    if (covered.size === 0) return;
    for (const { id, place } of system.variantDecls.values()) {
      if (covered.has(id)) continue;
      const message = `No procedure applies to the variant \`${id}\``;
      yield { id, place, message, detail: `Procedures apply to ${[...covered].map(v => `\`${v}\``).join(', ')} only.` };
    }
  },
});
