import { expect, test } from 'vitest';
import { readingPayload, readingTopic, statusTopic } from '../../../simulator/publish/payload.ts';

const atMs = Date.UTC(2031, 5, 1, 6, 30);

test('readingPayload() as object carries the values and an RFC 3339 time', () => {
  expect(
    JSON.parse(
      readingPayload('object', 'saltmere-yard', 'core', atMs, { temperature: 41.2, humidity: 98, battery: 3.1 }),
    ),
  ).toEqual({
    temperature: 41.2,
    humidity: 98,
    battery: 3.1,
    time: '2031-06-01T06:30:00.000Z',
  });
});
test('readingPayload() as senml has base name and time once and a unit per record (RFC 8428)', () => {
  expect(
    JSON.parse(readingPayload('senml', 'saltmere-yard', 'core', atMs, { temperature: 41.2, humidity: 98 })),
  ).toEqual([
    { bn: 'saltmere-yard:core:', bt: atMs / 1000, n: 'temperature', u: 'Cel', v: 41.2 },
    { n: 'humidity', u: '%RH', v: 98 },
  ]);
});
test('readingTopic() and statusTopic() stand under the root, site and probe', () => {
  expect(readingTopic('piles', 'saltmere-yard', 'core')).toBe('piles/saltmere-yard/core/reading');
  expect(statusTopic('piles', 'saltmere-yard', 'core')).toBe('piles/saltmere-yard/core/status');
});
