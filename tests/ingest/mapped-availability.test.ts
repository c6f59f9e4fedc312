import { expect, test } from 'vitest';
import { mappingInputSchema } from '../../shared/contracts/mappings.ts';
import { openDevices } from './devices/open-devices.ts';

const value = { pointer: '/t', quantity: 'temperature', unit: 'C' };
const mapping = mappingInputSchema.parse({
  filter: 'shed/+/+/say',
  site: 'yard',
  probe: 'shed-{1}-{2}',
  values: [value],
  availability: { filter: 'shed/+/will', online: 'Up', offline: 'Down' },
});

test('a word on the availability topic is said of every probe of that device, and of no other', () => {
  const { take, statuses, reasons } = openDevices([mapping]);
  for (const topic of ['shed/a/1/say', 'shed/a/2/say', 'shed/b/1/say']) take(topic, '{"t":41}');
  take('shed/a/will', 'Down');
  expect(statuses).toEqual(['yard/shed-a-1 offline', 'yard/shed-a-2 offline']);
  take('shed/a/will', 'something else');
  expect(statuses).toHaveLength(2);
  take('shed/a/1/say', '{"t":42}'); // whoever measures is there
  expect(statuses.at(-1)).toBe('yard/shed-a-1 online');
  expect(reasons()).toEqual([]);
});

test('what was said before the first reading is said of the probe then', () => {
  const { take, statuses } = openDevices([mapping]);
  take('shed/a/will', 'Up', { retained: true });
  expect(statuses).toEqual([]);
  take('shed/a/1/say', '{"t":41}');
  expect(statuses).toEqual(['yard/shed-a-1 online']);
});

test('a word may stand in the message, and be true or false', () => {
  const inMessage = mappingInputSchema.parse({
    ...mapping,
    availability: { filter: 'shed/+/will', pointer: '/on', online: 'true', offline: 'false' },
  });
  const { take, statuses } = openDevices([inMessage]);
  take('shed/a/1/say', '{"t":41}');
  take('shed/a/will', '{"on":false}');
  take('shed/a/will', 'no JSON');
  expect(statuses).toEqual(['yard/shed-a-1 offline']);
});

test('what is not for me is neither read, refused nor shown as waiting, even of a family that is known', () => {
  const ignored = mappingInputSchema.parse({ filter: 'zigbee2mqtt/kitchen', values: [] });
  const { take, reasons, foreign } = openDevices([ignored]);
  expect(take('zigbee2mqtt/kitchen', '{"temperature":21}')).toEqual([]);
  expect(take('zigbee2mqtt/kitchen', 'x'.repeat(70_000))).toEqual([]);
  expect(take('zigbee2mqtt/core', '{"temperature":41}')).toHaveLength(1);
  expect(reasons()).toEqual([]);
  expect(foreign.list().filter(({ isUsed }) => !isUsed)).toEqual([]);
});

test('what a key does not reach counts for its own site alone, and is refused of another', () => {
  const { take, reasons } = openDevices([mapping]);
  expect(take('shed/a/1/say', '{"t":41}', { site: 'yard', confinedTo: 'yard' })).toHaveLength(1);
  expect(take('shed/a/1/say', '{"t":42}', { site: 'other', confinedTo: 'other' })).toEqual([]);
  expect(reasons()).toEqual([expect.stringMatching(/^not-its-topic: .*the key of its sender is for other/)]);
});
