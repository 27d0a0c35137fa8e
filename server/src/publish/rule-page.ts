import type { Rule } from '../rules/rule.ts';

/** The manual page of a rule in Markdown: what is wrong, why it matters, how it looks, how it is mended and how it is silenced. */
export function rulePage(rule: Rule): string {
  return [
    `# ${rule.title}`,
    `\`${rule.id}\`: ${severityWords[rule.severity]}`,
    rule.explanation.trim(),
    '## As it is reported',
    fenced(readable(rule.bad)),
    '## As it should be',
    fenced(readable(rule.good)),
    '## When you have a reason to leave it',
    'Name the rule and the reason at the end of the file; `in` says for which names it holds.',
    fenced(`allow:\n  ${rule.id}: { in: [the-name], because: The reason in a few words }`),
    `The setting \`faultwalk.rules\` changes how loudly the rule speaks everywhere: \`{ "${rule.id}": "off" }\`.`,
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
