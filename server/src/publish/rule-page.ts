import type { Rule, RuleGroup } from '../rules/rule.ts';

/** What the groups of rules are called, in the order of the manual. */
export const groupTitles: Readonly<Record<RuleGroup, string>> = {
  text: 'Text',
  names: 'Names',
  structure: 'Structure',
  limits: 'Limits',
  circuit: 'Circuit',
  conditions: 'Conditions along the way',
  safety: 'Safety',
  proof: 'Every fault, walked through',
  samples: 'Sample walks',
};

/** The first page of the manual in Markdown: all rules by group, each with a link to its page. */
export function ruleIndex(rules: readonly Rule[]): string {
  const chapters = Object.entries(groupTitles).flatMap(([group, title]) => {
    const own = rules.filter(rule => rule.group === group);
    const lines = own.map(({ id, title, severity }) => `- [\`${id}\`](${id}.md), ${severityWords[severity]}: ${title}`);
    return own.length > 0 ? [`## ${title}`, lines.join('\n')] : [];
  });
  return `${['# What is checked', ...chapters].join('\n\n')}\n`;
}

/**
 * The manual page of a rule in Markdown: what is wrong, why it matters, how it looks, how it is mended and how it is silenced.
 * `exhibit` is what the gallery shows of it: the change that breaks a whole example, and the message that follows.
 */
export function rulePage(rule: Rule, exhibit?: string): string {
  return [
    `# ${rule.title}`,
    `\`${rule.id}\`: ${severityWords[rule.severity]}`,
    rule.explanation.trim(),
    '## As it is reported',
    fenced(readable(rule.bad)),
    '## As it should be',
    fenced(readable(rule.good)),
    ...(exhibit ? ['## In a whole example', `This is \`examples/broken/${rule.id}\` of the gallery.`, exhibit] : []),
    '## When you have a reason to leave it',
    'Name the rule and the reason at the end of the file; `in` says for which names it holds.',
    fenced(`allow:\n  ${rule.id}: { in: [the-name], because: The reason in a few words }`),
    `The setting \`faultwalk.rules\` changes how loudly the rule speaks everywhere: \`{ "${rule.id}": "off" }\`.`,
    '[All rules](index.md)',
  ]
    .join('\n\n')
    .concat('\n');
}

const severityWords: Record<Rule['severity'], string> = {
  error: 'an error',
  warning: 'a warning',
  information: 'for information',
  hint: 'a hint',
};

/** The examples of a rule carry marks for the tests; a reader sees the message under the place that it is about. */
function readable(example: string): string {
  return example
    .replace(/^\n/, '')
    .replace('$0', '')
    .replace(/^#- \/(\S+)$/gm, '# ── $1')
    .replace(/^(#(?: *\^+|<-*)) \w+ [a-z-]+: (.*?)(?: \[fix\])?$/gm, '$1 $2')
    .replace(/^#! \w+ [a-z-]+: (.*?)(?: \[fix\])?$/gm, '# In the whole file: $1')
    .trimEnd();
}

function fenced(text: string): string {
  return `\`\`\`yaml\n${text}\n\`\`\``;
}
