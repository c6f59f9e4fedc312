/** An intake that recognises devices, with what it said along the way. */

import type { Inbound } from '../../../ingest/commit/inbound.ts';
import { createIntake } from '../../../ingest/commit/intake.ts';
import { createPowerOnGuard } from '../../../ingest/decode/power-on-guard.ts';
import { createRefusals } from '../../../ingest/decode/refusals.ts';
import { recogniseDevices } from '../../../ingest/devices/recognise-devices.ts';
import { createForeignMessages } from '../../../ingest/mapping/foreign-messages.ts';
import { MappedAvailability } from '../../../ingest/mapping/mapped-availability.ts';
import type { MappingInput } from '../../../shared/contracts/mappings.ts';

export const startMs = Date.UTC(2026, 10, 29, 20);

export function openDevices(mappings: MappingInput[] = []) {
  const time = { nowMs: startMs };
  const clock = { nowMs: () => time.nowMs, speed: 1 };
  const refusals = createRefusals(clock);
  const statuses: string[] = [];
  const devices: string[] = [];
  const onStatus = (site: string, probe: string, online: boolean) =>
    void statuses.push(`${site}/${probe} ${online ? 'online' : 'offline'}`);
  const foreign = createForeignMessages();
  const intake = createIntake({
    root: 'piles',
    clock,
    refusals,
    foreign,
    powerOn: createPowerOnGuard(),
    mappings: () => mappings,
    availability: new MappedAvailability(onStatus),
    calibrate: (_site, _probe, _quantity, value) => value,
    admits: () => true,
    onStatus,
    devices: recogniseDevices({
      root: 'piles',
      filtersChanged() {},
      onStatus,
      onDevice: (site, probe, { family, label }) => void devices.push(`${site}/${probe}: ${label} (${family})`),
    }),
  });
  return {
    time,
    statuses,
    devices,
    refusals,
    foreign,
    take: (topic: string, payload: string, more: Partial<Inbound> = {}) =>
      intake({ topic, payload: Buffer.from(payload), retained: false, ...more }),
    reasons: () => refusals.answer().refusals.map(({ reason, last }) => `${reason}: ${last.message}`),
  };
}
