import { describe, expect, test } from 'vitest';
import { createRetainedMessages } from '../../ingest/embedded-broker/retained-messages.ts';

describe('retained messages of one key', () => {
  test('fill their share and no more, long topics counted as well as long messages', () => {
    const shelf = createRetainedMessages(10_000);
    const longTopic = 'y'.repeat(60_000);
    const kept = Array.from({ length: 100 }, (_, one) => shelf.mayRetain(`${longTopic}${one}`, 1, 'evil'));
    // 2 MiB hold 34 topics of 60 kB.
    expect(kept.filter(Boolean)).toHaveLength(34);
    expect(shelf.mayRetain('piles/s/honest/status', 6, 'honest')).toBe(true);
  });

  test('one that is replaced or taken away makes room', () => {
    const shelf = createRetainedMessages(10_000);
    expect(shelf.mayRetain('a', 2_000_000, 'k')).toBe(true);
    expect(shelf.mayRetain('b', 200_000, 'k')).toBe(false);
    expect(shelf.mayRetain('a', 1_800_000, 'k')).toBe(true);
    expect(shelf.mayRetain('b', 200_000, 'k')).toBe(true);
    expect(shelf.mayRetain('a', 0, 'k')).toBe(true);
    expect(shelf.mayRetain('c', 1_500_000, 'k')).toBe(true);
  });
});

test('all keys together stay within 16 MiB', () => {
  const shelf = createRetainedMessages(10_000);
  const kept = Array.from({ length: 40 }, (_, key) => shelf.mayRetain(`t/${key}`, 1_000_000, `key-${key}`));
  expect(kept.filter(Boolean)).toHaveLength(16);
});

test('a full shelf still takes a newer message on a topic that it holds', () => {
  const shelf = createRetainedMessages(2);
  expect(['a', 'b', 'c', 'a'].map((topic) => shelf.mayRetain(topic, 1, null))).toEqual([true, true, false, true]);
});
