import { describe, expect, test } from 'vitest';
import { parseColour } from '../../server/src/base/colour.ts';

describe('the colour of a wire', () => {
  // IEC 60757:1983, code for designation of colours (from memory).
  test.each([
    ['black', 'BK'],
    ['brown', 'BN'],
    ['red', 'RD'],
    ['orange', 'OG'],
    ['yellow', 'YE'],
    ['green', 'GN'],
    ['blue', 'BU'],
    ['violet', 'VT'],
    ['grey', 'GY'],
    ['white', 'WH'],
    ['pink', 'PK'],
    ['gold', 'GD'],
    ['turquoise', 'TQ'],
    ['silver', 'SR'],
  ])('%s is %s', (word, code) => {
    expect(parseColour(word)).toEqual({ value: { names: [word], code } });
    expect(parseColour(code)).toEqual({ value: { names: [word], code } });
  });

  test.each([
    ['yellow/black', ['yellow', 'black'], 'YE/BK'],
    ['YE/BK', ['yellow', 'black'], 'YE/BK'],
    ['GNYE', ['green', 'yellow'], 'GN/YE'],
    ['Yellow / Black', ['yellow', 'black'], 'YE/BK'],
    ['gray/purple', ['grey', 'violet'], 'GY/VT'],
    ['light blue/red', ['light blue', 'red'], 'light blue/RD'],
    ['tan', ['tan'], 'tan'],
  ])('`%s`', (text, names, code) => {
    expect(parseColour(text)).toEqual({ value: { names, code } });
  });

  test.each([
    ['yelow/black', 'yelow', 'yellow/black'],
    ['yellow-black', 'yellow-black', 'yellow/black'],
    ['yellow and blak', 'yellow and blak', undefined],
    ['yellow black', 'yellow black', 'yellow/black'],
    ['yelow/blak', 'yelow', 'yellow/black'],
    ['yelow/mauve', 'yelow', undefined],
    ['mauve', 'mauve', undefined],
    ['yellow/', 'yellow/', undefined],
    ['red/red/red/red', 'red/red/red/red', undefined],
  ])('`%s` is no colour', (text, at, suggestion) => {
    const { problem } = parseColour(text);
    expect(text.slice(problem?.start, problem?.end)).toBe(at);
    expect(problem?.suggestion).toBe(suggestion);
  });
});
