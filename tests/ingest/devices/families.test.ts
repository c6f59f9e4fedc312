/** Every documented or recorded example becomes what it says, in the order of its file, and nothing of it is refused. */
import { describe, expect, test } from 'vitest';
import { deviceFamilies } from '../../../ingest/devices/families.ts';
import type { Reading } from '../../../shared/reading.ts';
import { type DeviceExample, deviceExamples, payloadText } from '../../helpers/device-examples.ts';
import { openDevices } from './open-devices.ts';

function byProbe(readings: readonly Reading[]): DeviceExample['probes'] {
  const probes: DeviceExample['probes'] = {};
  for (const { probe, quantity, value } of readings) {
    probes[probe] ??= {};
    probes[probe][quantity] = value;
  }
  return probes;
}

test('every family has examples, and every example names a source', () => {
  expect(deviceExamples.map(({ family }) => family)).toEqual(
    expect.arrayContaining(deviceFamilies.map(({ id }) => id)),
  );
  for (const { sources, examples } of deviceExamples) {
    for (const { source } of examples) expect(Object.keys(sources)).toContain(source);
  }
});

describe.each(deviceExamples)('$family', ({ family, examples }) => {
  const { take, time, statuses, devices, reasons } = openDevices();

  test.each(examples.map((example, index) => ({ ...example, index })))('example $index on $topic', (example) => {
    time.nowMs = Date.parse(example.now);
    const saidBefore = statuses.length;
    const readings = take(example.topic, payloadText(example), { retained: example.retained });
    expect(byProbe(readings)).toEqual(example.probes);
    expect(readings.map(({ site }) => site)).toEqual(readings.map(() => 'devices'));
    for (const { atMs } of readings) expect(new Date(atMs).toISOString()).toBe(example.at ?? example.now);
    const offline = statuses.slice(saidBefore).flatMap((said) => /^devices\/(.*) offline$/.exec(said)?.[1] ?? []);
    expect(offline).toEqual(expect.arrayContaining(example.offline));
    expect(reasons()).toEqual([]);
    if (family !== 'discovery') for (const said of devices) expect(said).toContain(`(${family})`);
  });
});
