import { expect, test } from 'vitest';
import { audienceOf, subscriptionId } from '../../ingest/client/subscription-ids.ts';

const root = 'piles/+/+/+';

test('subscriptionId() is the same in every run and within what the standard allows', () => {
  expect(subscriptionId(root)).toBe(subscriptionId(root));
  const ids = ['a', 'b', '#', root, 'garden/+/temp', 'ü'.repeat(500)].map(subscriptionId);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) expect(id >= 1 && id <= 268_435_455).toBe(true);
});

test('audienceOf() lets everybody look at the copy that came for the root, and at messages without identifiers', () => {
  expect(audienceOf(root, 'piles/a/b/reading', subscriptionId(root))).toBe('everybody');
  expect(audienceOf(root, 'piles/a/b/reading', [subscriptionId('#'), subscriptionId(root)])).toBe('everybody');
  expect(audienceOf(root, 'garden/x', undefined)).toBe('everybody');
});

test('audienceOf() lets nobody look at a second copy of our own topics', () => {
  expect(audienceOf(root, 'piles/a/b/reading', subscriptionId('#'))).toBe('nobody');
});

test('audienceOf() gives a foreign copy to whoever asked for the filter it came by', () => {
  const audience = audienceOf(root, 'garden/x/temp', subscriptionId('garden/+/temp'));
  expect(typeof audience === 'function' && audience('garden/+/temp')).toBe(true);
  expect(typeof audience === 'function' && audience('garden/#')).toBe(false);
});
