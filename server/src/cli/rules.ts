import type { Command } from 'commander';
import { rules } from '../rules/index.ts';
import type { Host } from './host.ts';

/** `faultwalk rules`: what is checked. */
export function addRules(program: Command, host: Host): void {
  program
    .command('rules')
    .summary('list what is checked')
    .description('Lists every rule with how severe it is, a line each, in the order of the manual.')
    .action(() => {
      const widest = Math.max(...rules.map(rule => rule.id.length));
      const lines = rules.map(({ id, severity, title }) => `${id.padEnd(widest)}  ${severity.padEnd(11)}  ${title}`);
      host.out(`${lines.join('\n')}\n`);
    });
}
