import { describe, expect, test } from 'vitest';
import { applyMapping } from '../../ingest/mapping/mapping.ts';
import { mappingProblem } from '../../ingest/mapping/mapping-problem.ts';
import { filledName } from '../../ingest/mapping/name-template.ts';
import { tryMapping } from '../../ingest/mapping/try-mapping.ts';
import { type MappingInput, mappingInputSchema, mappingTrialSchema } from '../../shared/contracts/mappings.ts';
import type { RefusalReason } from '../../shared/errors.ts';
import { foreignUnitsOf, quantities } from '../../shared/quantity.ts';
import { oneValue } from '../helpers/one-value.ts';

const nowMs = Date.UTC(2031, 3, 5);
const arrival = { nowMs, retained: false };
const one = {
  filter: 'garden/+/sensors/+',
  pointer: '/data/0/temp',
  quantity: 'temperature',
  unit: 'F',
  site: 'saltmere-yard',
  probe: '{1}-{2}',
} as const;
const topic = 'garden/north bed/sensors/A.7';

const apply = (change: object, payload: string, on: string = topic) =>
  applyMapping(oneValue({ ...one, ...change }), on, payload, arrival);
const read = (change: object, payload: string, on?: string) => apply(change, payload, on)?.readings[0];

/** With values of its own; each is "site/probe quantity value". */
function readAll(mapping: Partial<Record<keyof MappingInput, unknown>>, payload: unknown, on = 'shed/7/sensors') {
  const parsed = mappingInputSchema.parse({ filter: 'shed/+/sensors', site: 'yard', probe: 'shed-{1}', ...mapping });
  expect(mappingProblem(parsed)).toBeUndefined();
  const decoded = applyMapping(parsed, on, typeof payload === 'string' ? payload : JSON.stringify(payload), arrival);
  return {
    read: decoded?.readings.map(({ site, probe, quantity, value }) => `${site}/${probe} ${quantity} ${value}`),
    refused: decoded?.refusals.map(({ reason }) => reason),
    times: decoded?.readings.map(({ atMs }) => new Date(atMs).toISOString()),
  };
}
const tempC = { quantity: 'temperature', unit: 'C' } as const;
const pct = { quantity: 'humidity', unit: '%' } as const;

describe('applyMapping() of a single value', () => {
  test('finds the value, converts it and names the probe after the wildcards', () => {
    expect(apply({}, '{"data":[{"temp":105.8}]}')).toEqual({
      readings: [{ site: 'saltmere-yard', probe: 'north-bed-a-7', quantity: 'temperature', value: 41, atMs: nowMs }],
      refusals: [],
    });
  });

  test('is not about other topics', () => expect(apply({}, '{}', 'garden/north/other/7')).toBeUndefined());

  test('dates by the time pointer', () => {
    const payload = '{"v":40,"when":"2031-04-04T23:00:00Z"}';
    expect(read({ pointer: '/v', unit: 'C', timePointer: '/when' }, payload)).toMatchObject({
      atMs: nowMs - 3_600_000,
    });
  });

  const units: [string, string, string, number][] = [
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
  test.each(units)('reads %s in %s', (quantity, unit, payload, value) => {
    expect(read({ pointer: '', quantity, unit }, payload)).toMatchObject({ quantity, value });
  });

  const texts: [string, string, number][] = [
    ['41.5', 'C', 41.5],
    [' 41.5 ', 'C', 41.5],
    ['"41.5"', 'C', 41.5],
    ['41,5', 'C', 41.5],
    ['"41,5 °C"', 'C', 41.5],
    ['41.5 °C', 'C', 41.5],
    ['41.5°C', 'F', 41.5], // a text that says its unit is read in that
    ['105.8 °F', 'C', 41],
    ['"-3,25 C"', 'C', -3.25],
    ['−3 °C', 'C', -3], // a true minus sign, as people's displays have it
  ];
  test.each(texts)('reads the text %j in %s', (payload, unit, value) => {
    expect(read({ pointer: '', unit }, payload)).toMatchObject({ value });
  });

  test.each([
    [{ scale: 0.1 }, 413, 41.3],
    [{ offset: -1.5 }, 43, 41.5],
    [{ scale: 0.1, offset: -40 }, 815, 41.5],
  ])('%j of %f is %f', (change, sent, value) => {
    expect(read({ pointer: '', unit: 'C', ...change }, String(sent))).toMatchObject({ value });
  });

  test.each(['null', '"nan"', 'NaN', '"unavailable"', '""'])('%s is no reading, and not refused', (payload) => {
    expect(apply({ pointer: '' }, payload)).toEqual({ readings: [], refusals: [] });
  });

  const refused: [string, object, string, RefusalReason][] = [
    ['a payload that is no JSON', {}, '{"data":', 'not-json'],
    ['a place that is not there', {}, '{"data":[]}', 'no-such-pointer'],
    ['a value that is no number', {}, '{"data":[{"temp":"warm"}]}', 'wrong-type'],
    ['a switch', {}, '{"data":[{"temp":true}]}', 'wrong-type'],
    ['thousands with a point and a comma', { pointer: '' }, '1.234,5', 'wrong-type'],
    ['two numbers', { pointer: '' }, '"41 42"', 'wrong-type'],
    ['a unit of something else', { pointer: '' }, '"41 hPa"', 'unknown-unit'],
    ['a value out of range', {}, '{"data":[{"temp":9999}]}', 'out-of-range'],
    ['a time that is not there', { pointer: '/v', timePointer: '/t' }, '{"v":100}', 'no-such-pointer'],
    ['a time that is none', { pointer: '/v', timePointer: '/t' }, '{"v":100,"t":"soon"}', 'bad-time'],
    ['a time of the wrong type', { pointer: '/v', timePointer: '/t' }, '{"v":100,"t":[]}', 'bad-time'],
    ['a time ahead', { pointer: '/v', timePointer: '/t' }, `{"v":100,"t":${nowMs + 300_001}}`, 'future-time'],
    [
      'a local time without its zone',
      { pointer: '/v', timePointer: '/t' },
      '{"v":100,"t":"2031-04-04T23:00:00"}',
      'bad-time',
    ],
  ];
  test.each(refused)('refuses %s', (_, change, payload, reason) => {
    expect(apply(change, payload)).toMatchObject({ readings: [], refusals: [{ reason }] });
  });

  test('refuses a topic that leaves the probe without a name: topic-shape', () => {
    expect(apply({ probe: '{1}' }, '{"data":[{"temp":100}]}', 'garden/??/sensors/7')).toMatchObject({
      refusals: [{ reason: 'topic-shape' }],
    });
  });
});

describe('applyMapping() of several values', () => {
  const chips = {
    chips: [
      { Id: '28AA', t: 40 },
      { Id: '28FF', t: 41.5 },
    ],
    bat: 87,
  };

  test('reads each, of its own probe where it has one', () => {
    const values = [
      { pointer: '/t', ...tempC },
      { pointer: '/h', ...pct },
      { pointer: '/air/t', ...tempC, probe: 'shed-{1}-air' },
    ];
    expect(readAll({ values }, { t: 41, h: 90, air: { t: 20 } }).read).toEqual([
      'yard/shed-7 temperature 41',
      'yard/shed-7 humidity 90',
      'yard/shed-7-air temperature 20',
    ]);
  });

  test('a value that is left out this time is not refused while another is there', () => {
    const values = [
      { pointer: '/t', ...tempC },
      { pointer: '/bat', quantity: 'charge', unit: '%' },
    ];
    expect(readAll({ values }, { t: 41 })).toMatchObject({ read: ['yard/shed-7 temperature 41'], refused: [] });
    expect(readAll({ values }, { other: 1 })).toMatchObject({ read: [], refused: ['no-such-pointer'] });
  });

  test.each([
    ['in a list', chips],
    ['in a list in another order', { chips: [...chips.chips].reverse() }],
    ['in an object under names that change', { chips: { 'DS18B20-2': { Id: '28FF', t: 41.5 }, n: 3 } }],
    ['with a number for an id', { chips: [{ Id: 1 }, { Id: '28FF', t: 41.5 }] }],
  ])('a value is picked by what stands beside it, %s', (_, payload) => {
    const values = [{ each: '/chips', only: { pointer: '/Id', is: '28FF' }, pointer: '/t', ...tempC }];
    expect(readAll({ values }, payload)).toMatchObject({ read: ['yard/shed-7 temperature 41.5'], refused: [] });
  });

  test('a chip that does not answer is no fault of the message', () => {
    const values = [{ each: '/chips', only: { pointer: '/Id', is: '28BB' }, pointer: '/t', ...tempC }];
    expect(readAll({ values }, chips)).toMatchObject({ read: [], refused: [] });
  });

  test('every member of a list is a probe, named by the message', () => {
    const values = [{ each: '/chips', pointer: '/t', ...tempC, probe: 'shed-{1}-{/Id}' }];
    expect(readAll({ values }, chips).read).toEqual([
      'yard/shed-7-28aa temperature 40',
      'yard/shed-7-28ff temperature 41.5',
    ]);
  });

  test('numbers in a list are read by their place in it', () => {
    const values = [
      { pointer: '/0', ...tempC },
      { pointer: '/1', ...tempC, probe: 'shed-{1}-top' },
    ];
    expect(readAll({ values }, [41.5, 30]).read).toEqual([
      'yard/shed-7 temperature 41.5',
      'yard/shed-7-top temperature 30',
    ]);
  });

  test('site and probe are named by the topic, or by the message', () => {
    const values = [{ pointer: '/t', ...tempC }];
    const message = { where: 'North Yard', name: 'Bed 3', t: 41 };
    expect(readAll({ values, site: '{/where}', probe: '{/name}' }, message).read).toEqual([
      'north-yard/bed-3 temperature 41',
    ]);
    expect(readAll({ values, filter: '+/+/sensors', site: '{1}', probe: 'p{2}' }, message).read).toEqual([
      'shed/p7 temperature 41',
    ]);
    expect(readAll({ values, probe: '{/name}' }, { t: 41 }).refused).toEqual(['topic-shape']);
  });

  test('a wildcard stands for a part of a level too', () => {
    const values = [{ pointer: '', ...tempC }];
    const mapping = { values, filter: 'farm/bed-+-probe/t', probe: 'bed-{1}' };
    expect(readAll(mapping, '41', 'farm/bed-12-probe/t').read).toEqual(['yard/bed-12 temperature 41']);
    expect(readAll(mapping, '41', 'farm/shed-12-probe/t').read).toBeUndefined();
  });

  test('a time stands in the member, else in the whole message', () => {
    const values = [{ each: '/chips', pointer: '/t', ...tempC, probe: '{/Id}' }];
    const payload = {
      at: '2031-04-04T22:00:00Z',
      chips: [
        { Id: 'a', t: 1, at: '2031-04-04T23:00:00Z' },
        { Id: 'b', t: 2 },
      ],
    };
    expect(readAll({ values, timePointer: '/at' }, payload).times).toEqual([
      '2031-04-04T23:00:00.000Z',
      '2031-04-04T22:00:00.000Z',
    ]);
  });

  // Lisbon goes by UTC+1 from 30 March 2031 on, the last Sunday of the month (Directive 2000/84/EC).
  test.each([
    ['2031-04-04T23:00:00', 'Europe/Lisbon', '2031-04-04T22:00:00.000Z'],
    ['2031-03-29 23:00', 'Europe/Lisbon', '2031-03-29T23:00:00.000Z'],
    ['2031-04-04T23:00:00.5', 'UTC', '2031-04-04T23:00:00.500Z'],
    ['2031-04-04T23:00:00+02:00', 'Europe/Lisbon', '2031-04-04T21:00:00.000Z'], // says its offset itself
  ])('the local time %s in %s is %s', (at, timeZone, expected) => {
    const values = [{ pointer: '/t', ...tempC }];
    expect(readAll({ values, timePointer: '/at', timeZone }, { t: 1, at }).times).toEqual([expected]);
  });

  test('what is not for us is neither read nor refused', () => {
    expect(readAll({ values: [], site: '', probe: '' }, 'anything')).toMatchObject({ read: [], refused: [] });
  });

  test('what lay in the broker counts with a time of its own alone, and is not refused without', () => {
    const retained = { nowMs, retained: true };
    const timed = { ...one, pointer: '/v', timePointer: '/t' };
    const payload = '{"v":100,"t":"2031-04-01T00:00:00Z"}';
    expect(applyMapping(oneValue(timed), topic, payload, retained)?.readings).toHaveLength(1);
    expect(applyMapping(oneValue({ ...one, pointer: '/v' }), topic, payload, retained)).toEqual({
      readings: [],
      refusals: [],
    });
  });
});

test('filledName() fits the rule for names', () => {
  const fill = (template: string, captured: string[], text = '') => filledName(template, captured, () => text);
  expect(fill('p-{1}', ['North Bed/7 ü'])).toBe('p-north-bed-7');
  expect(fill('{2}', ['a'])).toBe('');
  expect(fill('{1}', ['x'.repeat(100)])).toHaveLength(64);
  expect(fill('{/id}-{1}', ['7'], 'A B')).toBe('a-b-7');
});

describe('mappingProblem()', () => {
  test('finds nothing wrong with a mapping that works', () => expect(mappingProblem(oneValue(one))).toBeUndefined());
  const value = { pointer: '', ...tempC };
  const wrong: [object, string][] = [
    [{ filter: 'a/#/b' }, '/filter'],
    [{ filter: 'a/+b+/c' }, '/filter'],
    [{ pointer: 'data' }, '/values/0/pointer'],
    [{ timePointer: 'time' }, '/timePointer'],
    [{ timeZone: 'Mars/Olympus' }, '/timeZone'],
    [{ unit: 'ppm' }, '/values/0/unit'],
    [{ probe: '{3}' }, '/probe'],
    [{ probe: '{0}' }, '/probe'],
    [{ probe: 'My Probe' }, '/probe'],
    [{ probe: '' }, '/probe'],
    [{ site: 'My Site' }, '/site'],
    [{ site: '' }, '/site'],
    [{ values: [value, { ...value, each: 'a' }] }, '/values/1/each'],
    [{ values: [{ ...value, only: { pointer: 'a', is: '' } }] }, '/values/0/only/pointer'],
    [{ values: [{ ...value, probe: '{9}' }] }, '/values/0/probe'],
    [{ availability: { filter: '+/#/x', online: 'a', offline: 'b' } }, '/availability/filter'],
    [{ availability: { filter: '+/+/+', online: 'a', offline: 'b' } }, '/availability/filter'],
    [{ availability: { filter: 'x', pointer: 'y', online: 'a', offline: 'b' } }, '/availability/pointer'],
  ];
  test.each(wrong)('of %j', (change, pointer) => {
    expect(mappingProblem(oneValue({ ...one, ...change }))).toMatchObject({ pointer });
  });
});

test.each(quantities)('mappingProblem() takes every unit of %s that the page offers', (quantity) => {
  for (const unit of foreignUnitsOf(quantity))
    expect([unit, mappingProblem(oneValue({ ...one, quantity, unit }))]).toEqual([unit, undefined]);
});

test('tryMapping() says for each message it is about what it would become, or why not', () => {
  const isRetained = false;
  const trial = tryMapping(oneValue(one), [
    { topic: 'garden/a/sensors/1', payload: '{"data":[{"temp":104}]}', atMs: nowMs, isRetained },
    { topic: 'garden/a/sensors/2', payload: 'oops', atMs: nowMs, isRetained },
    { topic: 'garden/a/sensors/3', payload: '{"data":[{"temp":104}]}', atMs: nowMs, isRetained: true },
    { topic: 'elsewhere', payload: '1', atMs: nowMs, isRetained },
  ]);
  expect(mappingTrialSchema.parse(trial).results).toMatchObject([
    {
      topic: 'garden/a/sensors/1',
      readings: [{ probe: 'a-1', value: 40, at: '2031-04-05T00:00:00.000Z' }],
      refusals: [],
      isOfUnknownAge: false,
    },
    { topic: 'garden/a/sensors/2', readings: [], refusals: [{ reason: 'not-json' }] },
    { topic: 'garden/a/sensors/3', readings: [], refusals: [], isOfUnknownAge: true },
  ]);
});

test('a mapping is bounded: values, text, scale and offset', () => {
  const value = { pointer: '', ...tempC };
  const parse = (more: object) => mappingInputSchema.safeParse({ ...one, values: [value], ...more }).success;
  expect(parse({})).toBe(true);
  expect(parse({ values: Array.from({ length: 33 }, () => value) })).toBe(false);
  expect(parse({ values: [{ ...value, offset: 2e9 }] })).toBe(false);
  expect(parse({ values: [{ ...value, scale: 0 }] })).toBe(false);
  expect(parse({ filter: 'x'.repeat(513) })).toBe(false);
  expect(parse({ probe: 'x'.repeat(129) })).toBe(false);
});
