/** What a message of an unknown device is shown as, and that whatever it holds nothing of that is unbounded. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyMapping } from '../../ingest/mapping/mapping.ts';
import { contentOf } from '../../ingest/mapping/message-content.ts';
import { messageContentSchema } from '../../shared/contracts/ingest.ts';
import { mappingInputSchema } from '../../shared/contracts/mappings.ts';

const shown = (topic: string, payload: unknown) =>
  contentOf(topic, typeof payload === 'string' ? payload : JSON.stringify(payload)).values.map(
    ({ path, text, quantity, unit }) => `${path.join(' > ')}: ${text} ${quantity ?? '?'} ${unit ?? '?'}`,
  );

const rows: [string, unknown, string[]][] = [
  ['shed/7/temperature', '41.5', [': 41.5 temperature C']],
  ['shed/7/x', '41.5 °C', [': 41.5 °C temperature C']],
  ['shed/7/x', '"105,8 °F"', [': 105,8 °F temperature F']],
  ['shed/7/x', '41.5', [': 41.5 ? ?']],
  ['shed/7/humidity', { value: 0.93 }, ['value: 0.93 humidity /']],
  ['shed/7', { t: 41, rh: 93, batt_pct: 80 }, ['t: 41 temperature C', 'rh: 93 humidity %RH', 'batt_pct: 80 charge %']],
  ['shed/7', { t: 1900000000, temp_f: 105.8 }, ['temp_f: 105.8 temperature F']],
  ['shed/7', { uptime: 53211, co2: '5400 ppm' }, ['uptime: 53211 ? ?', 'co2: 5400 ppm co2 ppm']],
  ['shed/7', [41, 30], ['0: 41 ? ?', '1: 30 ? ?']],
  [
    'shed/7',
    {
      chips: [
        { Id: '28AA', temp: 40 },
        { Id: '28FF', temp: 41 },
      ],
    },
    ['chips > 28AA > temp: 40 temperature C', 'chips > 28FF > temp: 41 temperature C'],
  ],
  ['shed/7', { on: true, name: 'Bed', none: null }, []],
  ['shed/7', '{"cut off', []],
];
test.each(rows)('contentOf(%j) of %j', (topic, payload, expected) => expect(shown(topic, payload)).toEqual(expected));

test('a value beside an id is found by it, whatever the order', () => {
  const { values } = contentOf(
    'x',
    JSON.stringify({
      chips: [
        { Id: '28AA', t: 40 },
        { Id: '28FF', t: 41 },
      ],
    }),
  );
  expect(values[1]).toMatchObject({ each: '/chips', only: { pointer: '/Id', is: '28FF' }, pointer: '/t' });
});

test('members with the same id are found by their place', () => {
  const { values } = contentOf(
    'x',
    JSON.stringify([
      { name: 'a', t: 40 },
      { name: 'a', t: 41 },
    ]),
  );
  expect(values.map(({ pointer, each }) => [pointer, each])).toEqual([
    ['/0/t', undefined],
    ['/1/t', undefined],
  ]);
});

test.each([
  [{ ts: 1900000000, v: 1 }, '/ts', false],
  [{ Time: '2031-04-05T06:07:08', v: 1 }, '/Time', true],
  [{ a: { at: '2031-04-05T06:07:08Z' }, v: 1 }, '/a/at', false],
])('contentOf() finds the time in %j', (payload, pointer, isLocal) => {
  expect(contentOf('x', JSON.stringify(payload)).time).toEqual({ pointer, isLocal });
});

test('contentOf() offers texts that may name a probe', () => {
  expect(contentOf('x', '{"name":"Bed 3","t":41}').names).toEqual([{ pointer: '/name', text: 'Bed 3' }]);
});

describe('of whatever is published', () => {
  const nested = fc.anything({ maxDepth: 12, withBigInt: false }).map((value) => JSON.stringify(value) ?? '');
  const long = fc.constantFrom(
    '['.repeat(16_000),
    JSON.stringify(Array.from({ length: 5_000 }, (_, id) => ({ id, t: id }))),
    `{"${'x'.repeat(10_000)}":1,"__proto__":{"id":"a","t":1},"constructor":{"t":2}}`,
    `${'9'.repeat(5_000)} °C`,
    `1${' '.repeat(5_000)}C`,
  );
  const payloads = fc.oneof(nested, long, fc.string({ maxLength: 300 }));

  test('content is what the API allows, bounded, and each value can be mapped and is found', () => {
    fc.assert(
      fc.property(payloads, fc.string({ maxLength: 60 }), (payload, topic) => {
        const content = messageContentSchema.parse(contentOf(topic, payload));
        expect(content.values.length).toBeLessThanOrEqual(100);
        expect(content.names.length).toBeLessThanOrEqual(20);
        expect(JSON.stringify(content).length).toBeLessThan(200_000);
        for (const { pointer, each, only, quantity, unit } of content.values.slice(0, 32)) {
          const value = { pointer, each, only, quantity: quantity ?? 'co2', unit: unit ?? 'ppm' };
          const mapping = mappingInputSchema.parse({ filter: '#', site: 's', probe: 'p', values: [value] });
          const decoded = applyMapping(mapping, 'x', payload, { nowMs: Date.UTC(2031, 3, 5), retained: false });
          expect(decoded?.refusals.map(({ reason }) => reason)).not.toContain('no-such-pointer');
        }
      }),
      { numRuns: 300 },
    );
  });

  const template = fc.stringMatching(/^(\{[0-9/a]{0,4}\}|[a-z{}/-]){0,20}$/);
  const mappings = fc.record({
    filter: fc.constantFrom('#', 'a/+', 'a/b+/c'),
    site: template,
    probe: template,
    values: fc.array(
      fc.record({
        pointer: fc.constantFrom('', '/t', '/0', '/__proto__', '/constructor/name', '/~1~0'),
        each: fc.constantFrom(undefined, '', '/list', '/__proto__'),
        only: fc.constantFrom(undefined, { pointer: '/id', is: '1' }, { pointer: '', is: '' }),
        quantity: fc.constant('temperature'),
        unit: fc.constant('C'),
        scale: fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
        offset: fc.double({ min: -1e9, max: 1e9, noNaN: true }),
      }),
      { maxLength: 32 },
    ),
    timePointer: fc.constantFrom(undefined, '', '/t', '/at'),
    timeZone: fc.constantFrom(undefined, 'UTC', 'Europe/Lisbon', 'nowhere'),
  });

  test('applyMapping() never throws, and gives at most 200 readings of a value', () => {
    fc.assert(
      fc.property(mappings, payloads, fc.constantFrom('a/b', 'a/bx/c', '/', ''), (mapping, payload, topic) => {
        const parsed = mappingInputSchema.parse(mapping);
        const decoded = applyMapping(parsed, topic, payload, { nowMs: Date.UTC(2031, 3, 5), retained: false });
        for (const { site, probe, value } of decoded?.readings ?? []) {
          expect(site).toMatch(/^[a-z0-9_-]{1,64}$/);
          expect(probe).toMatch(/^[a-z0-9_-]{1,64}$/);
          expect(Number.isFinite(value)).toBe(true);
        }
        expect(decoded?.readings.length ?? 0).toBeLessThanOrEqual(200 * 32);
      }),
      { numRuns: 300 },
    );
  });
});
