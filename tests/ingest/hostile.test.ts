// Ten thousand generated messages that mean harm or are broken, and good ones beside them: nothing is thrown,
// each bad one is counted, each good one is stored.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createIntake } from '../../ingest/commit/intake.ts';
import { createPowerOnGuard } from '../../ingest/decode/power-on-guard.ts';
import { createRefusals } from '../../ingest/decode/refusals.ts';
import { createForeignMessages } from '../../ingest/mapping/foreign-messages.ts';
import { MappedAvailability } from '../../ingest/mapping/mapped-availability.ts';
import { refusalsAnswerSchema } from '../../shared/contracts/ingest.ts';
import { quantities, quantityFacts } from '../../shared/quantity.ts';
import { oneValue } from '../helpers/one-value.ts';

const nowMs = Date.UTC(2031, 3, 5);
const seed = 20310405;

function open() {
  const clock = { nowMs: () => nowMs, speed: 1 };
  const refusals = createRefusals(clock);
  const intake = createIntake({
    root: 'piles',
    clock,
    refusals,
    foreign: createForeignMessages(),
    powerOn: createPowerOnGuard(),
    mappings: () => [
      oneValue({
        filter: 'garden/#',
        pointer: '/a/0',
        quantity: 'temperature',
        unit: 'C',
        scale: 1,
        site: 's',
        probe: '{1}',
        timePointer: '/t',
      }),
    ],
    availability: new MappedAvailability(() => {}),
    calibrate: (_site, _probe, _quantity, value) => value,
    admits: () => true,
    onStatus() {},
  });
  const take = (topic: string, payload: Buffer) => intake({ topic, payload, retained: false });
  return { take, refusals };
}

const names = fc.constantFrom(...quantities, 'time', 'unit', '__proto__', 'constructor', 'n', 'v', 'pressure', '');
const evilValue = fc.oneof(
  fc.constantFrom(
    'NaN',
    'Infinity',
    '-1e999',
    '1e999',
    '""',
    'null',
    '"2031-02-30T00:00:00Z"',
    '85',
    '-127',
    '127.9375',
    '9'.repeat(400),
  ),
  fc.jsonValue().map((value) => JSON.stringify(value)),
  fc.double().map(String),
);
const evilObject = fc
  .array(fc.tuple(names, evilValue), { maxLength: 8 })
  .map((fields) => `{${fields.map(([name, value]) => `${JSON.stringify(name)}:${value}`).join(',')}}`);
const senmlFields = fc.constantFrom(
  'bn',
  'bt',
  'bu',
  'bv',
  'bs',
  'bver',
  'n',
  'u',
  'v',
  'vs',
  'vb',
  'vd',
  's',
  't',
  'ut',
  'x_',
);
const senmlValue = fc.oneof(
  evilValue,
  fc.constantFrom('"temperature"', '"Cel"', '"%RH"', '1933000000', '-600', '41.5'),
);
const evilPack = fc
  .array(
    fc
      .array(fc.tuple(senmlFields, senmlValue), { maxLength: 6 })
      .map((fields) => `{${fields.map(([name, value]) => `"${name}":${value}`).join(',')}}`),
    { maxLength: 5 },
  )
  .map((records) => `[${records.join(',')}]`);
const text = fc.oneof(evilObject, evilPack, fc.json(), fc.string({ unit: 'binary', maxLength: 300 }), evilValue);
const payload = fc.oneof(
  { weight: 6, arbitrary: text.map((whole) => Buffer.from(whole)) },
  {
    weight: 2,
    arbitrary: fc.tuple(text, fc.nat(200)).map(([whole, length]) => Buffer.from(whole).subarray(0, length)),
  },
  { weight: 2, arbitrary: fc.uint8Array({ maxLength: 400 }).map((bytes) => Buffer.from(bytes)) },
);
const leaf = fc.constantFrom('reading', 'status', ...quantities, 'Reading', '');
const topic = fc.oneof(
  { weight: 6, arbitrary: leaf.map((last) => `piles/saltmere-yard/p1/${last}`) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.string({ unit: 'binary', maxLength: 80 }), leaf)
      .map(([name, last]) => `piles/${name}/p1/${last}`),
  },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
  { weight: 1, arbitrary: fc.string({ maxLength: 40 }).map((rest) => `garden/${rest}`) },
);

test('10,000 hostile messages: nothing thrown, only believable readings kept, the answer stays as promised', () => {
  const { take, refusals } = open();
  let good = 0;
  fc.assert(
    fc.property(topic, payload, (onTopic, bytes) => {
      for (const { quantity, value, atMs, site, probe } of take(onTopic, bytes)) {
        const { min, max } = quantityFacts[quantity];
        expect(value >= min && value <= max).toBe(true);
        expect(Number.isInteger(atMs) && atMs >= 946_684_800_000 && atMs <= nowMs + 300_000).toBe(true);
        expect(`${site} ${probe}`).toMatch(/^[a-z0-9_-]{1,64} [a-z0-9_-]{1,64}$/);
      }
      // A good message right behind it.
      good += take(
        'piles/saltmere-yard/good/reading',
        Buffer.from(`{"temperature":41.5,"time":${nowMs - good}}`),
      ).length;
    }),
    { seed, numRuns: 10_000 },
  );
  expect(good).toBe(10_000);
  const answer = refusalsAnswerSchema.parse(refusals.answer());
  for (const { last } of answer.refusals) {
    expect(last.payload.length).toBeLessThanOrEqual(200);
    expect(`${last.payload}${last.topic}${last.message}`).not.toMatch(/\p{Cc}/u);
  }
  expect(answer.total).toBeGreaterThan(8_000);
});

test('every message on a topic of ours gives a reading, a status or a counted refusal', () => {
  const { take, refusals } = open();
  const ours = fc.constantFrom(
    'piles/saltmere-yard/p1/reading',
    'piles/saltmere-yard/p1/co2',
    'piles/saltmere-yard/p1/oops',
  );
  fc.assert(
    fc.property(ours, payload, (onTopic, bytes) => {
      const before = refusals.answer().total;
      const kept = take(onTopic, bytes).length;
      expect(kept + refusals.answer().total - before).toBeGreaterThan(0);
    }),
    { seed, numRuns: 2_000 },
  );
});

test('good records beside hostile ones in one pack are kept', () => {
  const { take } = open();
  const record = fc
    .array(fc.tuple(fc.constantFrom('u', 'v', 'vs', 'vb', 't'), senmlValue), { maxLength: 5 })
    .map((fields) => `{"n":"pressure"${fields.map(([name, value]) => `,"${name}":${value}`).join('')}}`);
  const isJson = (json: string) => {
    try {
      JSON.parse(json);
      return true;
    } catch {
      return false;
    }
  };
  fc.assert(
    fc.property(fc.array(record.filter(isJson), { minLength: 1, maxLength: 4 }), (hostile) => {
      const good = '{"n":"temperature","u":"Cel","v":41.5}';
      const kept = take('piles/saltmere-yard/p1/reading', Buffer.from(`[${[...hostile, good].join(',')}]`));
      expect(kept.map(({ value }) => value)).toEqual([41.5]);
    }),
    { seed, numRuns: 1_000 },
  );
});
