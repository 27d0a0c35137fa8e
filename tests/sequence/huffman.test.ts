import { describe, expect, it } from 'vitest';
import { bestTree } from '../../server/src/sequence/best-tree.ts';
import { huffman } from '../../server/src/sequence/bound.ts';
import { randomFrom } from '../support/random-network.ts';

/**
 * Where every test that one can think of is there and each takes a minute, the mean minutes are the mean word length of a Huffman code.
 * Cover and Thomas, *Elements of Information Theory*, 2nd ed., section 5.6 (examples 5.6.1 to 5.6.3) and section 5.7.1, on the game of
 * twenty questions; the probabilities and the lengths are recalled from memory, and follow by hand from the construction.
 */
const examples = [
  { weights: [0.25, 0.25, 0.2, 0.15, 0.15], arity: 2, length: 2.3 },
  { weights: [0.25, 0.25, 0.2, 0.15, 0.15], arity: 3, length: 1.5 },
  { weights: [0.25, 0.25, 0.2, 0.1, 0.1, 0.1], arity: 3, length: 1.7 },
];

describe('a Huffman code', () => {
  for (const { weights, arity, length } of examples) {
    it(`of ${weights.join(', ')} with ${arity} digits has words of ${length} digits on average`, () => {
      expect(huffman(weights.toSorted(), arity)).toBeCloseTo(length, 12);
      if (arity === 2) expect(withEveryTest(weights).minutes).toBeCloseTo(length, 12);
    });
  }

  it('takes as long as the best order of all tests of two outcomes that there can be', () => {
    const random = randomFrom(6);
    for (let round = 0; round < 40; round++) {
      const weights = Array.from({ length: 2 + Math.floor(random() * 5) }, () => Math.ceil(random() * 30));
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const found = withEveryTest(weights);
      expect(found.optimal).toBe(true);
      expect(found.minutes).toBeCloseTo(plainHuffman(weights) / total, 9);
    }
  });
});

function withEveryTest(weights: readonly number[]) {
  const tests = Array.from({ length: 2 ** (weights.length - 1) - 1 }, (_, i) => ({
    minutes: 1,
    outcomes: weights.map((_, suspect) => [((i + 1) >> suspect) & 1]),
  }));
  return bestTree({ suspects: weights.map((weight, suspect) => ({ weight, owner: `${suspect}` })), tests });
}

/** The two least are put together until one is left; what is put together is counted. */
function plainHuffman(weights: readonly number[]): number {
  const [a, b, ...rest] = [...weights].sort((a, b) => a - b);
  if (a === undefined || b === undefined) return 0;
  return a + b + plainHuffman([a + b, ...rest]);
}
