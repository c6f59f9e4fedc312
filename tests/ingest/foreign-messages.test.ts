import { expect, test } from 'vitest';
import { createForeignMessages } from '../../ingest/mapping/foreign-messages.ts';

const said = { atMs: Date.UTC(2031, 3, 5), isRetained: false, site: undefined, isUsed: false };

test('keeps the last message of each topic, newest first', () => {
  const messages = createForeignMessages();
  for (const [topic, payload] of [
    ['a', '1'],
    ['b', '2'],
    ['a', '3'],
  ] as const)
    messages.keep({ ...said, topic, payload });
  expect(messages.list().map(({ topic, payload }) => [topic, payload])).toEqual([
    ['a', '3'],
    ['b', '2'],
  ]);
});

test('keeps at most 200 topics and a million characters', () => {
  const messages = createForeignMessages();
  for (let index = 0; index < 1_000; index += 1) messages.keep({ ...said, topic: `t${index}`, payload: 'x' });
  expect(messages.list()).toHaveLength(200);
  expect(messages.list()[0]?.topic).toBe('t999');
  for (let index = 0; index < 1_000; index += 1)
    messages.keep({ ...said, topic: `u${index}`, payload: 'x'.repeat(16_000) });
  expect(messages.list().reduce((sum, { payload }) => sum + payload.length, 0)).toBeLessThanOrEqual(1_000_000);
  messages.keep({ ...said, topic: 'big', payload: 'x'.repeat(20_000) });
  expect(messages.list().some(({ topic }) => topic === 'big')).toBe(false);
});
