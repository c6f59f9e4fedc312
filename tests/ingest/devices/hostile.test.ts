/** Whatever devices send, nothing throws, nothing grows without end, and only sound readings come out. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { quantityFacts } from '../../../shared/quantity.ts';
import { deviceExamples, payloadText } from '../../helpers/device-examples.ts';
import { openDevices, startMs } from './open-devices.ts';

const seed = 20261129;
const examples = deviceExamples.flatMap((file) => file.examples);
const topics = examples.map(({ topic }) => topic);

/** Keys and words of the families, so that what is made up gets past their first look. */
const key = fc.constantFrom(
  ...['temperature', 'temperature:0', 'tC', 'Id', 'DS18B20', 'Time', 'last_seen', 'availability', 'params', 'method'],
  ...['uplink_message', 'decoded_payload', 'normalized_payload', 'rx_metadata', 'object', 'deviceInfo', 'data', 'ts'],
  ...['nodes', 'properties', '~', 'stat_t', 'val_tpl', 'dev', 'ids', 'cmps', 'p', 'dev_cla', 'unit_of_meas', 'avty'],
  ...['__proto__', 'constructor', 'toString', ''],
);
const leaf = fc.oneof(
  fc.double(),
  fc.string({ maxLength: 12 }),
  fc.constantFrom<unknown>(
    null,
    true,
    'NotifyStatus',
    'sensor',
    '°C',
    '{{ value_json.temperature }}',
    '0201061BFF9904',
    -127,
  ),
  fc.constantFrom(...topics),
);
const { tree } = fc.letrec<{ tree: unknown }>((tie) => ({
  tree: fc.oneof(
    { depthSize: 'small', maxDepth: 5 },
    leaf,
    fc.dictionary(key, tie('tree'), { maxKeys: 6 }),
    fc.array(tie('tree'), { maxLength: 4 }),
  ),
}));
const level = fc.oneof(
  fc.constantFrom(...new Set(topics.flatMap((topic) => topic.split('/')))),
  fc.string({ maxLength: 4 }),
);
const topic = fc.oneof(
  fc.constantFrom(...topics),
  fc.array(level, { minLength: 1, maxLength: 7 }).map((levels) => levels.join('/')),
);
const payload = fc.oneof(
  tree.map((body) => JSON.stringify(body) ?? ''),
  fc.constantFrom(...examples.map(payloadText)),
  fc.string({ maxLength: 60 }),
  // A message that was cut off somewhere.
  fc.tuple(fc.constantFrom(...examples.map(payloadText)), fc.nat(400)).map(([text, to]) => text.slice(0, to)),
);

test('made-up and damaged messages of every family give sound readings or none', () => {
  const { take, time, reasons } = openDevices();
  fc.assert(
    fc.property(topic, payload, fc.boolean(), (to, text, retained) => {
      time.nowMs += 1_000;
      for (const { site, probe, quantity, value, atMs } of take(to, text, { retained })) {
        const { min, max } = quantityFacts[quantity];
        expect(value >= min && value <= max).toBe(true);
        expect(`${site}/${probe}`).toMatch(/^[a-z0-9_-]{1,64}\/[a-z0-9_-]{1,64}$/);
        expect(Number.isFinite(atMs) && atMs <= time.nowMs + 300_000).toBe(true);
      }
    }),
    { seed, numRuns: 20_000 },
  );
  for (const reason of reasons()) expect(reason.length).toBeLessThan(600);
});

test('a payload nested without end is read no deeper than a report is', () => {
  const { take, reasons } = openDevices();
  for (const open of ['{"a":', '[']) {
    const deep = open.repeat(20_000);
    for (const to of topics) expect(take(to, deep)).toEqual([]);
  }
  const object = `{"deviceInfo":{},"object":${'{"temperature":'.repeat(5_000)}41${'}'.repeat(5_000)}}`;
  expect(take('application/1/device/1/event/up', object)).toEqual([]);
  // On a board's topic of one bare number it is one that cannot be read.
  for (const reason of reasons()) expect(reason).toMatch(/^wrong-type: Cannot read temperature at the payload/);
});

/** What a template would do if anybody evaluated it: reach an object's maker, a file, a loop without end. */
const hostileTemplate = fc.oneof(
  fc.constantFrom(
    '{{ value_json.t }}',
    '{{ value_json["__proto__"].polluted }}',
    '{{ value_json.constructor.constructor("globalThis.wasEvaluated = true")() }}',
    '<%= globalThis.wasEvaluated = true %>',
    '{{ globalThis.wasEvaluated = true }}',
    "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    '{% for i in range(1000000000) %}{{ i }}{% endfor %}',
    '{% set wasEvaluated = true %}{{ value_json.t }}',
    `{{ value_json.t ${'| round(6) '.repeat(40)}}}`,
    `{{ value_json.${'a'.repeat(100_000)} }}`,
    '{{ value_json.t | float + 1 }}',
    '{{ 61 }}',
  ),
  fc
    .array(
      fc.constantFrom(
        '{{',
        '}}',
        '{%',
        '%}',
        'value',
        'value_json',
        '.t',
        '[0]',
        "['t']",
        '|',
        'round(',
        ')',
        ' ',
        '+',
        '61',
      ),
      { maxLength: 12 },
    )
    .map((parts) => parts.join('')),
);
const withKeys = (values: Record<string, fc.Arbitrary<unknown>>) => fc.record(values, { requiredKeys: [] });
const stateTopic = fc.constantFrom('yard/a', 'yard/b', '~/a', 'piles/saltmere-yard/p1/other', 'yard/#', '$SYS/x', '');
const entity = withKeys({
  '~': fc.constantFrom<unknown>('yard', '~', 'piles/saltmere-yard', 7),
  platform: fc.constantFrom('sensor', 'switch'),
  name: fc.oneof(fc.string({ maxLength: 300 }), leaf),
  state_topic: stateTopic,
  stat_t: stateTopic,
  value_template: hostileTemplate,
  val_tpl: hostileTemplate,
  device_class: fc.constantFrom('temperature', 'humidity', '__proto__', 'toString'),
  unit_of_measurement: fc.constantFrom<unknown>('°C', '°F', '%', 'mV', 3),
  device: fc.oneof(withKeys({ identifiers: tree, ids: tree, name: leaf }), tree),
  availability: fc.oneof(fc.array(withKeys({ topic: stateTopic, value_template: hostileTemplate })), tree),
  availability_mode: leaf,
  expire_after: fc.oneof(fc.double(), leaf),
});
const introduction = fc.oneof(
  fc.tuple(fc.constant('homeassistant/sensor/made/up/config'), entity),
  fc.tuple(
    fc.constant('homeassistant/device/made-up/config'),
    fc.record({ dev: tree, cmps: fc.oneof(fc.dictionary(key, entity, { maxKeys: 5 }), tree) }),
  ),
);
const stated = fc.oneof(
  fc.constantFrom('{"t":23.5}', '[23.5]', '23.5', 'online', '{"__proto__":{"polluted":23.5},"constructor":23.5}'),
  tree.map((body) => JSON.stringify(body) ?? ''),
);

/** Whether a number of the text is this one: as it stands, of °F, rounded or cut to a whole one by its template. */
const isIn = (text: string, value: number) =>
  [...text.matchAll(/-?\d+(?:\.\d+)?(?:e[+-]?\d+)?/gi)]
    .map(Number)
    .some((number) => Math.abs(number - value) <= 1 || Math.abs((number - 32) / 1.8 - value) <= 1);

test('made-up introductions and templates evaluate nothing, read no topic of ours and give only what a message held', () => {
  const { take, time, reasons } = openDevices();
  let read = 0;
  fc.assert(
    fc.property(introduction, stated, ([to, body], state) => {
      time.nowMs += 1_000;
      expect(take(to, JSON.stringify(body))).toEqual([]);
      expect(take('piles/saltmere-yard/p1/other', state)).toEqual([]);
      for (const topicOfState of ['yard/a', 'yard/b']) {
        for (const { quantity, value, probe } of take(topicOfState, state)) {
          read += 1;
          const { min, max } = quantityFacts[quantity];
          expect(value >= min && value <= max).toBe(true);
          expect(probe).toMatch(/^[a-z0-9_-]{1,64}$/);
          expect(isIn(state, value)).toBe(true);
        }
      }
      expect(take(to, '')).toEqual([]);
    }),
    { seed, numRuns: 5_000 },
  );
  expect(read).toBeGreaterThan(0);
  expect(Object.hasOwn(globalThis, 'wasEvaluated')).toBe(false);
  expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  expect(reasons().some((reason) => reason.startsWith('unknown-template'))).toBe(true);
  for (const reason of reasons()) expect(reason.length).toBeLessThan(600);
});

test('a flood of invented devices and introductions leaves a bounded memory and goes on reading', () => {
  const { take, time } = openDevices();
  const introduction = (index: number) => {
    const components = Object.fromEntries(
      Array.from({ length: 20 }, (_, one) => [
        `c${one}`,
        {
          p: 'sensor',
          dev_cla: 'temperature',
          unit_of_meas: '°C',
          stat_t: `x/${index}/${one}`,
          val_tpl: '{{ value }}',
        },
      ]),
    );
    return JSON.stringify({ dev: { ids: `d${index}` }, cmps: components });
  };
  for (let index = 0; index < 300; index += 1) take(`homeassistant/device/d${index}/config`, introduction(index));
  for (let index = 0; index < 12_000; index += 1) {
    time.nowMs += 10;
    take(`zigbee2mqtt/made-up-${index}`, `{"temperature":${(index % 400) / 10}}`);
    take(`homie/5/made-up-${index}/$description`, '{"nodes":{"a":{"properties":{}}}}');
  }
  expect(take('zigbee2mqtt/last', '{"temperature":41.5}')).toMatchObject([{ probe: 'last', value: 41.5 }]);
  expect(time.nowMs).toBeGreaterThan(startMs);
});
