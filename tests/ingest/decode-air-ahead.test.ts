/** Air foretold on the topic of a site: what is taken, and every refusal with its reason. */
import { describe, expect, test } from 'vitest';
import { decodeAirAhead } from '../../ingest/decode/air-ahead.ts';
import { readTopic } from '../../ingest/decode/topic.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { ReadingError } from '../../shared/errors.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';

const nowMs = Date.UTC(2031, 3, 5, 9);
const at = (hour: number) => toInstant(nowMs + hour * msPerHour);
const point = (hour: number, temperatureC: unknown = 12, more: object = {}) => ({
  at: at(hour),
  temperatureC,
  ...more,
});
const decode = (payload: unknown, retained = false) =>
  decodeAirAhead(typeof payload === 'string' ? payload : JSON.stringify(payload), { nowMs, retained });

test('readTopic() knows the topic of a site, and no name of a probe by it', () => {
  expect(readTopic('piles', 'piles/saltmere-yard/air-ahead')).toEqual({ kind: 'air-ahead', site: 'saltmere-yard' });
  expect(readTopic('piles', 'piles/Saltmere/air-ahead').kind).toBe('misshapen');
  expect(readTopic('piles', 'piles/saltmere-yard/air-ahead/reading')).toMatchObject({ kind: 'reading' });
});

describe('decodeAirAhead()', () => {
  test('takes times as RFC 3339, epoch seconds or milliseconds, and counts from its arrival where it says no time', () => {
    const seconds = (nowMs + 3 * msPerHour) / 1000;
    const read = decode({ points: [point(0, 11, { humidityPct: 80 }), { at: seconds, temperatureC: 9.5 }] });
    expect(read).toEqual({
      issuedMs: nowMs,
      points: [
        { at: nowMs, temperatureC: 11, humidityPct: 80 },
        { at: nowMs + 3 * msPerHour, temperatureC: 9.5 },
      ],
    });
    expect(decode({ issuedAt: at(-2), source: 'us', points: [point(0), point(1)] }, true)).toMatchObject({
      issuedMs: nowMs - 2 * msPerHour,
      source: 'us',
    });
  });

  const both = [point(0), point(1)];
  test.each([
    ['no JSON', '{"points":', 'not-json', ''],
    ['no points', { temperatureC: 3 }, 'wrong-type', '/points'],
    ['one point', { points: [point(1)] }, 'out-of-range', '/points'],
    ['a temperature in words', { points: [point(0, 'mild'), point(1)] }, 'wrong-type', '/points/0/temperatureC'],
    ['°F', { points: [point(0, 68), point(1, 70)] }, 'out-of-range', '/points/0/temperatureC'],
    ['humidity over 100', { points: [point(0, 9, { humidityPct: 130 }), point(1)] }, 'out-of-range', '/humidityPct'],
    ['a time in words', { points: [{ at: 'noon', temperatureC: 3 }, point(1)] }, 'bad-time', '/points/0/at'],
    ['points out of order', { points: [point(2), point(1)] }, 'bad-time', '/points/1/at'],
    ['made in the future', { issuedAt: at(1), points: both }, 'future-time', '/issuedAt'],
    ['a week old at its beginning', { points: [point(-25), point(1)] }, 'bad-time', '/points/0/at'],
    ['gone by', { points: [point(-2), point(-1)] }, 'bad-time', '/points/1/at'],
    ['seventeen days ahead', { points: [point(0), point(17 * 24)] }, 'future-time', '/points/1/at'],
    ['1,001 points', { points: Array.from({ length: 1001 }, (_, i) => point(i / 10)) }, 'out-of-range', '/points'],
  ])('refuses %s', (_what, payload, reason, pointer) => {
    const refused = decode(payload);
    expect(refused).toBeInstanceOf(ReadingError);
    expect(refused).toMatchObject({ reason, said: expect.anything() });
    expect(plainEnglish((refused as ReadingError).said)).toContain(pointer);
  });

  test('refuses a retained one that does not say when it was made: nobody knows how long it lay there', () => {
    expect(decode({ points: both }, true)).toMatchObject({ reason: 'missing-field' });
    expect(decode({ issuedAt: toInstant(nowMs - msPerDay), points: both }, true)).not.toBeInstanceOf(ReadingError);
  });
});
