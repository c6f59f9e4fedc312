import { expect, test } from 'vitest';
import { bedAfter, bedAt } from '../../../core/profiles/bed.ts';
import type { Act } from '../../../shared/contracts/domain/batch.ts';
import { setupOf, startMs } from '../helpers.ts';

const bed = { cover: 'breathable', depthM: 0.3 } as const;

test.each<[Omit<Act, 'atMs'>, string, number]>([
  [{ kind: 'covered' }, 'closed', 0.3],
  [{ kind: 'uncovered' }, 'open', 0.3],
  [{ kind: 'spread', depthM: 0.12 }, 'breathable', 0.12],
  [{ kind: 'spread' }, 'breathable', 0.21],
  [{ kind: 'heaped', depthM: 0.5 }, 'breathable', 0.5],
  [{ kind: 'heaped' }, 'breathable', 0.39],
  [{ kind: 'turned', depthM: 0.1 }, 'breathable', 0.3],
  [{ kind: 'watered' }, 'breathable', 0.3],
])('bedAfter() %j lies %s, %d m deep', (act, cover, depthM) => {
  const after = bedAfter(bed, { ...act, atMs: startMs });
  expect(after.cover).toBe(cover);
  expect(after.depthM).toBeCloseTo(depthM, 12);
});

test('bedAfter() covers an open bed with what breathes, and closes it only with the second cover', () => {
  const once = bedAfter({ ...bed, cover: 'open' }, { kind: 'covered', atMs: startMs });
  expect(once.cover).toBe('breathable');
  expect(bedAfter(once, { kind: 'covered', atMs: startMs }).cover).toBe('closed');
});

test('bedAt() counts an act from its own instant on', () => {
  const acts: Act[] = [{ kind: 'spread', atMs: startMs + 1000, depthM: 0.1 }];
  const setup = setupOf('bran', { acts });
  expect(bedAt(setup, startMs + 999).depthM).toBe(setup.recipe.depthM);
  expect(bedAt(setup, startMs + 1000).depthM).toBe(0.1);
});
