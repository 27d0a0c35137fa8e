import { WrongUse } from './wrong-use.ts';

/** The name and the state that an option like `--set key=run` gives. Throws `WrongUse` where one is missing. */
export function settingIn(text: string, option: string): readonly [name: string, state: string] {
  const sign = text.indexOf('=');
  if (sign <= 0) {
    throw new WrongUse(`\`${option} ${text}\` says no state`, `write a name, \`=\` and a state: \`${option} key=run\``);
  }
  return [text.slice(0, sign).trim(), text.slice(sign + 1).trim()];
}
