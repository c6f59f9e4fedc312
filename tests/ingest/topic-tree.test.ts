import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createTopicTree } from '../../ingest/embedded-broker/topic-tree.ts';
import { matchFilter } from '../../ingest/mapping/topic-filter.ts';

const level = fc.constantFrom('a', 'b', '', '$SYS', 'cc');
const topics = fc.array(
  fc.array(level, { minLength: 1, maxLength: 4 }).map((levels) => levels.join('/')),
  { maxLength: 20 },
);
const filter = fc
  .tuple(fc.array(fc.oneof(level, fc.constant('+')), { maxLength: 4 }), fc.boolean())
  .map(([levels, toTheEnd]) => [...levels, ...(toTheEnd || levels.length === 0 ? ['#'] : [])].join('/'));

test('a filter finds the topics that it matches and no others, also after some were deleted', () => {
  fc.assert(
    fc.property(topics, topics, filter, (kept, deleted, asked) => {
      const tree = createTopicTree<string>();
      for (const topic of kept) tree.set(topic, topic);
      for (const topic of deleted) tree.delete(topic);
      const left = new Set(kept.filter((topic) => !deleted.includes(topic)));
      const found = [...tree.matching(asked)];
      expect(new Set(found).size).toBe(found.length);
      expect(new Set(found)).toEqual(new Set([...left].filter((topic) => matchFilter(asked, topic) !== undefined)));
    }),
    { seed: 20310405, numRuns: 1_000 },
  );
});
