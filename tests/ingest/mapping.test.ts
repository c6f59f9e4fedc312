import { describe, expect, test } from 'vitest';
import { createForeignMessages } from '../../ingest/mapping/foreign-messages.ts';
import { applyMapping, mappingProblem, probeName, tryMapping } from '../../ingest/mapping/mapping.ts';
import { type MappingInput, mappingInputSchema, mappingTrialSchema } from '../../shared/contracts/ingest.ts';
import type { RefusalReason } from '../../shared/errors.ts';
import { foreignUnitsOf, quantities } from '../../shared/quantity.ts';

const nowMs = Date.UTC(2031, 3, 5);
const arrival = { nowMs, retained: false };
const mapping: MappingInput = mappingInputSchema.parse({
  filter: 'garden/+/sensors/+',
  pointer: '/data/0/temp',
  quantity: 'temperature',
  unit: 'F',
  site: 'saltmere-yard',
  probe: '{1}-{2}',
});

const apply = (change: Partial<MappingInput>, payload: string, topic = 'garden/north bed/sensors/A.7') =>
  applyMapping({ ...mapping, ...change }, topic, payload, arrival);

describe('applyMapping()', () => {
  test('finds the value, converts it and names the probe after the wildcards', () => {
    expect(apply({}, '{"data":[{"temp":105.8}]}')).toEqual({
      site: 'saltmere-yard',
      probe: 'north-bed-a-7',
      quantity: 'temperature',
      value: 41,
      atMs: nowMs,
    });
  });

  test('is not about other topics', () => {
    expect(apply({}, '{}', 'garden/north/other/7')).toBeUndefined();
  });

  test('multiplies before the unit is read', () => {
    expect(apply({ scale: 0.1 }, '{"data":[{"temp":1058}]}')).toMatchObject({ value: 41 });
  });

  test('takes the whole payload at the empty pointer, as number or as text of one', () => {
    for (const payload of ['41.5', ' 41.5 ', '"41.5"']) {
      expect(apply({ pointer: '', unit: 'C' }, payload)).toMatchObject({ value: 41.5 });
    }
  });

  test('dates by the time pointer', () => {
    const payload = '{"v":40,"when":"2031-04-04T23:00:00Z"}';
    expect(apply({ pointer: '/v', unit: 'C', timePointer: '/when' }, payload)).toMatchObject({
      atMs: nowMs - 3_600_000,
    });
  });

  const units: [MappingInput['quantity'], MappingInput['unit'], string, number][] = [
    ['temperature', 'C', '41.5', 41.5],
    ['temperature', 'K', '314.65', 41.5],
    ['humidity', '%RH', '98', 98],
    ['humidity', '/', '0.98', 98],
    ['moisture', '%', '58', 58],
    ['moisture', '/', '0.58', 58],
    ['co2', 'ppm', '5400', 5400],
    ['co2', '%', '0.54', 5400],
    ['battery', 'mV', '3610', 3.61],
    ['charge', '/', '0.8', 80],
    ['rssi', 'dBW', '-101', -71],
  ];
  for (const [quantity, unit, payload, value] of units) {
    test(`reads ${quantity} in ${unit}`, () => {
      expect(apply({ pointer: '', quantity, unit }, payload)).toMatchObject({ quantity, value });
    });
  }

  const refused: [string, Partial<MappingInput>, string, RefusalReason][] = [
    ['a payload that is no JSON', {}, '{"data":', 'not-json'],
    ['a place that is not there', {}, '{"data":[]}', 'no-such-pointer'],
    ['a value that is no number', {}, '{"data":[{"temp":"warm"}]}', 'wrong-type'],
    ['null', {}, '{"data":[{"temp":null}]}', 'wrong-type'],
    ['a value out of range', {}, '{"data":[{"temp":9999}]}', 'out-of-range'],
    ['a time that is not there', { pointer: '/v', timePointer: '/t' }, '{"v":100}', 'no-such-pointer'],
    ['a time that is none', { pointer: '/v', timePointer: '/t' }, '{"v":100,"t":"soon"}', 'bad-time'],
    ['a time of the wrong type', { pointer: '/v', timePointer: '/t' }, '{"v":100,"t":[]}', 'bad-time'],
    ['a time ahead', { pointer: '/v', timePointer: '/t' }, `{"v":100,"t":${nowMs + 300_001}}`, 'future-time'],
    ['a number on the whole that is none', { pointer: '' }, 'NaN', 'not-json'],
  ];
  for (const [what, change, payload, reason] of refused) {
    test(`refuses ${what}: ${reason}`, () => {
      expect(apply(change, payload)).toMatchObject({ reason });
    });
  }

  test('refuses a topic that leaves the probe without a name: topic-shape', () => {
    expect(apply({ probe: '{1}' }, '{"data":[{"temp":100}]}', 'garden/??/sensors/7')).toMatchObject({
      reason: 'topic-shape',
    });
  });
});

test('probeName() fits the rule for names', () => {
  expect(probeName('p-{1}', ['North Bed/7 ü'])).toBe('p-north-bed-7');
  expect(probeName('{2}', ['a'])).toBe('');
  expect(probeName('{1}', ['x'.repeat(100)])).toHaveLength(64);
});

describe('mappingProblem()', () => {
  test('finds nothing wrong with a mapping that works', () => {
    expect(mappingProblem(mapping)).toBeUndefined();
  });
  const wrong: [Partial<MappingInput>, string][] = [
    [{ filter: 'a/#/b' }, '/filter'],
    [{ pointer: 'data' }, '/pointer'],
    [{ timePointer: 'time' }, '/timePointer'],
    [{ unit: 'ppm' }, '/unit'],
    [{ probe: '{3}' }, '/probe'],
    [{ probe: '{0}' }, '/probe'],
    [{ probe: 'My Probe' }, '/probe'],
  ];
  for (const [change, pointer] of wrong) {
    test(`names ${pointer} in ${JSON.stringify(change)}`, () => {
      expect(mappingProblem({ ...mapping, ...change })).toMatchObject({ pointer });
    });
  }
});

test.each(quantities)('mappingProblem() takes every unit of %s that the page offers', (quantity) => {
  for (const unit of foreignUnitsOf(quantity))
    expect([unit, mappingProblem({ ...mapping, quantity, unit })]).toEqual([unit, undefined]);
});

test('tryMapping() says for each message it is about what it would become, or why not', () => {
  const trial = tryMapping(mapping, [
    { topic: 'garden/a/sensors/1', payload: '{"data":[{"temp":104}]}', atMs: nowMs },
    { topic: 'garden/a/sensors/2', payload: 'oops', atMs: nowMs },
    { topic: 'elsewhere', payload: '1', atMs: nowMs },
  ]);
  expect(mappingTrialSchema.parse(trial).results).toMatchObject([
    {
      topic: 'garden/a/sensors/1',
      reading: { probe: 'a-1', value: 40, at: '2031-04-05T00:00:00.000Z' },
      refusal: null,
    },
    { topic: 'garden/a/sensors/2', reading: null, refusal: { reason: 'not-json' } },
  ]);
});

describe('createForeignMessages()', () => {
  test('keeps the last message of each topic, newest first', () => {
    const messages = createForeignMessages();
    for (const [topic, payload] of [
      ['a', '1'],
      ['b', '2'],
      ['a', '3'],
    ] as const)
      messages.keep({ atMs: nowMs, topic, payload, isUsed: false });
    expect(messages.list().map(({ topic, payload }) => [topic, payload])).toEqual([
      ['a', '3'],
      ['b', '2'],
    ]);
  });

  test('keeps at most 200 topics and a million characters', () => {
    const messages = createForeignMessages();
    for (let index = 0; index < 1_000; index += 1)
      messages.keep({ atMs: nowMs, topic: `t${index}`, payload: 'x', isUsed: false });
    expect(messages.list()).toHaveLength(200);
    expect(messages.list()[0]?.topic).toBe('t999');
    for (let index = 0; index < 1_000; index += 1)
      messages.keep({ atMs: nowMs, topic: `u${index}`, payload: 'x'.repeat(16_000), isUsed: false });
    expect(messages.list().reduce((sum, { payload }) => sum + payload.length, 0)).toBeLessThanOrEqual(1_000_000);
    messages.keep({ atMs: nowMs, topic: 'big', payload: 'x'.repeat(20_000), isUsed: false });
    expect(messages.list().some(({ topic }) => topic === 'big')).toBe(false);
  });
});
