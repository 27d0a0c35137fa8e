import type { SystemView } from '../../analysis/view.ts';
import type { Rule } from '../rule.ts';
import { name } from '../wording.ts';

export const cyclicInclude: Rule = {
  id: 'cyclic-include',
  severity: 'error',
  group: 'names',
  on: 'system',
  title: 'System files that include one another',
  explanation: `
This file includes another one that, directly or through further files, includes this one again. An included file is read as if it stood
here, so such a circle would never end; it is cut, and what is missing then is a matter of chance.

Put what both need into a file of its own, and let both include that.`,
  bad: `#- /cab.system.yaml
format: 1
system: cab
includes: [power.system.yaml]
#          ^^^^^^^^^^^^^^^^^ error cyclic-include: \`power.system.yaml\` includes this file again
#- /power.system.yaml
format: 1
system: power
includes: [cab.system.yaml]
#          ^^^^^^^^^^^^^^^ error cyclic-include: \`cab.system.yaml\` includes this file again
`,
  good: `#- /cab.system.yaml
format: 1
system: cab
includes: [power.system.yaml]
#- /power.system.yaml
format: 1
system: power
`,
  *check(view) {
    for (const [i, ref] of view.system.includes.entries()) {
      const included = view.included[i];
      const isItself = view.includes[i] === view.uri;
      if (!isItself && !(included && leadsTo(included, view.uri))) continue;
      yield {
        rule: 'cyclic-include',
        place: ref.place,
        message: isItself ? 'The file includes itself' : `${name(ref.text, 50)} includes this file again`,
        detail: 'Each would have to stand in the other, without an end.',
        help: isItself ? 'Delete it.' : 'Put what both need into a third file, and include that in both.',
      };
    }
  },
};

function leadsTo(view: SystemView, uri: string): boolean {
  return view.includes.includes(uri) || view.included.some(one => one !== undefined && leadsTo(one, uri));
}
