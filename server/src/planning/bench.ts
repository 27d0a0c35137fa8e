import type { Case } from '../analysis/view.ts';

/** One system in one variant, on which something is tested; no procedure is needed. */
export type Bench = Pick<Case, 'system' | 'variant' | 'circuit'>;
