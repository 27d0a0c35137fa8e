import { describe, expect, it } from 'vitest';
import { planElimination, StarMesh } from '../../server/src/numeric/star-mesh.ts';
import { randomFrom } from '../support/random-network.ts';

describe('star to mesh', () => {
  it('turns three equal arms into three equal sides of three times their resistance', () => {
    // Star of 1 ohm each is a triangle of 3 ohm each, so two corners are 3 || 6 = 2 ohm apart.
    const mesh = new StarMesh(planElimination(4, [0, 0, 0], [1, 2, 3], 3), [1, 1, 1]);
    expect(mesh.solve([0, 1, 0, 0])[1]).toBe(2);
  });

  it('keeps the digits of milliohms beside megohms', () => {
    // 0.001 ohm, then 1e9 ohm to the reference, with a ladder of 1e-3 and 1e9 in between: R = 1e-3 + 1e9 || (1e-3 + 1e9).
    const mesh = new StarMesh(planElimination(4, [0, 1, 1, 2], [1, 3, 2, 3], 3), [1e3, 1e-9, 1e3, 1e-9]);
    const inner = 1e9 + 1e-3;
    expect(mesh.solve([1, 0, 0, 0])[0]).toBeCloseTo(1e-3 + (1e9 * inner) / (1e9 + inner), 6);
    // 1 A into node 2 raises nodes 1 and 2 to half each but for a part in 1e12, which a plain elimination would lose.
    const potential = mesh.solve([0, 0, 1, 0]);
    expect((potential[2]! - potential[1]!) / 5e-4).toBeCloseTo(1, 3);
  });

  it('satisfies Kirchhoff at every node of a random graph, parts without connection each on their own', () => {
    const random = randomFrom(3);
    for (let round = 0; round < 50; round++) {
      const size = 2 + Math.floor(random() * 30);
      const edges = Array.from({ length: 2 * size }, () => {
        // Edges stay within the lower or the upper half, so that there are two parts or more.
        const half = Math.floor(size / 2);
        const upper = random() < 0.5 || half < 1;
        const pick = () => (upper ? half + Math.floor(random() * (size - half)) : Math.floor(random() * half));
        return [pick(), pick(), 10 ** (6 * random() - 3)] as const;
      });
      const from = edges.map(([a]) => a);
      const to = edges.map(([, b]) => b);
      const mesh = new StarMesh(
        planElimination(size, from, to),
        edges.map(([, , g]) => g),
      );
      const injected = new Float64Array(size);
      for (const [a, b] of edges) {
        injected[a]! += 1;
        injected[b]! -= 1;
      }
      const potential = mesh.solve(injected);
      const left = Float64Array.from(injected);
      const passing = new Float64Array(size).fill(1e-30);
      for (const [a, b, g] of edges) {
        const amps = g * (potential[a]! - potential[b]!);
        left[a]! -= amps;
        left[b]! += amps;
        for (const end of [a, b]) passing[end]! += g * (Math.abs(potential[a]!) + Math.abs(potential[b]!));
      }
      left.forEach((amps, node) => {
        expect(Math.abs(amps)).toBeLessThanOrEqual(1e-12 * passing[node]! + 1e-12);
      });
    }
  });

  it('gives the reference and a node without any edge 0 volts', () => {
    const mesh = new StarMesh(planElimination(3, [0], [1], 0), [0.5]);
    expect([...mesh.solve([0, 3, 0])]).toEqual([0, 6, 0]);
  });
});
