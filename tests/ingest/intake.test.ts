import { expect, test } from 'vitest';
import type { Inbound } from '../../ingest/commit/inbound.ts';
import { createIntake } from '../../ingest/commit/intake.ts';
import { createPowerOnGuard } from '../../ingest/decode/power-on-guard.ts';
import { createRefusals } from '../../ingest/decode/refusals.ts';
import { createForeignMessages } from '../../ingest/mapping/foreign-messages.ts';
import { MappedAvailability } from '../../ingest/mapping/mapped-availability.ts';
import type { MappingInput } from '../../shared/contracts/mappings.ts';
import { oneValue } from '../helpers/one-value.ts';

const nowMs = Date.UTC(2031, 3, 5);
const clock = { nowMs: () => nowMs, speed: 1 };

function open(
  mappings: MappingInput[] = [],
  calibrate = (_s: string, _p: string, _q: string, value: number) => value,
  admits = (_s: string, _p: string) => true,
) {
  const refusals = createRefusals(clock);
  const foreign = createForeignMessages();
  const statuses: unknown[][] = [];
  const hubs = { births: 0 };
  const intake = createIntake({
    root: 'piles',
    clock,
    refusals,
    foreign,
    powerOn: createPowerOnGuard(),
    mappings: () => mappings,
    availability: new MappedAvailability(() => {}),
    calibrate,
    admits,
    onStatus: (...said) => statuses.push(said),
    hubs: {
      cameUp() {
        hubs.births += 1;
      },
      onPress: async () => undefined,
    },
  });
  const take = (topic: string, payload: string | Buffer, more: Partial<Inbound> = {}) =>
    intake({ topic, payload: Buffer.from(payload), retained: false, ...more });
  const reasons = () => refusals.answer().refusals.map(({ reason, count }) => `${reason} ${count}`);
  return { take, reasons, refusals, foreign, statuses, hubs };
}

const topic = 'piles/saltmere-yard/p1/reading';
const one = {
  filter: 'garden/+',
  pointer: '/t',
  quantity: 'temperature',
  unit: 'C',
  scale: 1,
  site: 'saltmere-yard',
  probe: 'g-{1}',
};
const mapping = oneValue(one);

test('a reading comes out calibrated', () => {
  const { take } = open([], (site, probe, quantity, value) =>
    `${site}/${probe}/${quantity}` === 'saltmere-yard/p1/temperature' ? value + 0.5 : value,
  );
  expect(take(topic, '{"humidity":97,"temperature":40}').map(({ quantity, value }) => [quantity, value])).toEqual([
    ['temperature', 40.5],
    ['humidity', 97],
  ]);
});

test('a calibration that gives no number leaves the value as measured', () => {
  expect(open([], () => Number.NaN).take(topic, '{"temperature":40}')).toMatchObject([{ value: 40 }]);
});

test('an isolated 85 °C is set aside and counted, what is beside it kept', () => {
  const { take, reasons } = open();
  expect(take(topic, '{"temperature":85,"humidity":97}')).toMatchObject([{ quantity: 'humidity' }]);
  expect(reasons()).toEqual(['power-on-value 1']);
});

test('185 °F is the same power-on value', () => {
  const { take, reasons } = open();
  expect([take(topic, '{"temperature":185,"unit":"F"}'), reasons()]).toEqual([[], ['power-on-value 1']]);
});

test('a hot pile at 85 °C is believed', () => {
  const { take, reasons } = open();
  take(topic, `{"temperature":84,"time":${nowMs - 60_000}}`);
  expect([take(topic, '{"temperature":85}').length, reasons()]).toEqual([1, []]);
});

test('85 is no power-on value for another quantity', () => {
  expect(open().take(topic, '{"humidity":85}')).toHaveLength(1);
});

test('status goes to its listener with the time of arrival; anything else there is refused', () => {
  const { take, statuses, reasons } = open();
  take('piles/saltmere-yard/p1/status', 'online', { retained: true });
  take('piles/saltmere-yard/p1/status', 'offline');
  take('piles/saltmere-yard/p1/status', 'ONLINE');
  expect(statuses).toEqual([
    ['saltmere-yard', 'p1', true, nowMs],
    ['saltmere-yard', 'p1', false, nowMs],
  ]);
  expect(reasons()).toEqual(['wrong-type 1']);
});

test('a payload of 64 KiB is read, one byte more is refused: payload-too-large', () => {
  const { take, reasons } = open();
  const body = '{"temperature":40}';
  expect(take(topic, body.padEnd(65_536))).toHaveLength(1);
  expect(take(topic, body.padEnd(65_537))).toHaveLength(0);
  expect(reasons()).toEqual(['payload-too-large 1']);
});

test('an empty payload is refused: payload-empty', () => {
  const { take, reasons } = open();
  take(topic, '');
  expect(reasons()).toEqual(['payload-empty 1']);
});

test('bytes that are no UTF-8 are refused: not-json', () => {
  const { take, reasons } = open();
  take(topic, Buffer.from([0xff, 0xfe, 0x00, 0x80]));
  expect(reasons()).toEqual(['not-json 1']);
});

test('a foreign message is kept for a look and counts as nothing', () => {
  const { take, foreign, reasons } = open();
  take('garden/x', '{"t":41}');
  take('garden/cleared', '');
  take('$SYS/broker/uptime', '9');
  expect(foreign.list()).toMatchObject([{ topic: 'garden/x', isUsed: false, payload: '{"t":41}', atMs: nowMs }]);
  expect(reasons()).toEqual([]);
});

test('a foreign message becomes a reading for each mapping that is about it', () => {
  const { take } = open([mapping, oneValue({ ...one, pointer: '/h', quantity: 'humidity', unit: '%RH' })]);
  expect(take('garden/x', '{"t":41,"h":90}')).toMatchObject([
    { probe: 'g-x', quantity: 'temperature', value: 41 },
    { probe: 'g-x', quantity: 'humidity', value: 90 },
  ]);
});

test('what a mapping cannot read is counted, and the other mapping’s reading kept', () => {
  const { take, reasons } = open([mapping, oneValue({ ...one, pointer: '/h', quantity: 'humidity', unit: '%RH' })]);
  expect(take('garden/x', '{"h":90}')).toHaveLength(1);
  take('garden/x', Buffer.alloc(65_537, 0x20));
  expect(reasons()).toEqual(['payload-too-large 1', 'no-such-pointer 1']);
});

test('a mapped temperature of an isolated 85 °C is set aside too', () => {
  const { take, reasons } = open([mapping]);
  expect([take('garden/x', '{"t":85}'), reasons()]).toEqual([[], ['power-on-value 1']]);
});

test('a mapping that may not look at this copy does not', () => {
  expect(open([mapping]).take('garden/x', '{"t":41}', { cameBy: () => false })).toEqual([]);
});

test('a hub that comes up counts once, however many copies a broker brings of it', () => {
  const { take, hubs } = open();
  for (const by of ['+/status', 'homeassistant/status'])
    take('homeassistant/status', 'online', { cameBy: (filter) => filter === by });
  expect(hubs.births).toBe(1);
  take('homeassistant/status', 'online');
  take('homeassistant/status', 'offline');
  expect(hubs.births).toBe(2);
});

test('a shape below the root that is not ours is refused, unless a mapping is about it', () => {
  const { take, reasons } = open([{ ...mapping, filter: 'piles/+/old' }]);
  expect(take('piles/Yard/old', '{"t":41}')).toHaveLength(1);
  expect(reasons()).toEqual([]);
  take('piles/Yard/p1/reading', '{"temperature":41}');
  expect(reasons()).toEqual(['topic-shape 1']);
});
