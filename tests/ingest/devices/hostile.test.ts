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
