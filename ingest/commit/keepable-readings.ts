import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ProbeRef } from '../decode/decoded.ts';
import { neighbourC, type PowerOnGuard, powerOnC } from '../decode/power-on-guard.ts';
import type { Refusals } from '../decode/refusals.ts';
import type { Inbound } from './inbound.ts';

export interface KeepableParts {
  readonly refusals: Refusals;
  readonly powerOn: PowerOnGuard;
  calibrate(site: string, probe: string, quantity: Quantity, value: number): number;
  admits(site: string, probe: string): boolean;
}

/** Of what a message says, what may be kept, calibrated; the rest is counted as refused. */
export function keepableReadings(
  parts: KeepableParts,
  readings: readonly Reading[],
  message: Inbound,
): readonly Reading[] {
  return trusted(parts, admitted(parts, readings, message), message);
}

/** Leaves out what comes from probes that there is no room for, and counts it once a message. */
function admitted(parts: KeepableParts, readings: readonly Reading[], message: Inbound): readonly Reading[] {
  const stranger = readings.find(({ site, probe }) => !parts.admits(site, probe));
  if (stranger === undefined) return readings;
  parts.refusals.count(unclaimedError(stranger), message.topic, message.payload);
  return readings.filter(({ site, probe }) => parts.admits(site, probe));
}

/** Sets readings aside that a chip gave before its first measurement, and calibrates the others. */
function trusted(parts: KeepableParts, readings: readonly Reading[], message: Inbound): readonly Reading[] {
  let changed: Reading[] | undefined; // made only once something differs from what was decoded
  let index = 0;
  for (const reading of readings) {
    const kept = calibrated(parts, reading, message);
    if (kept !== reading) changed ??= readings.slice(0, index);
    if (kept !== undefined) changed?.push(kept);
    index += 1;
  }
  return changed ?? readings;
}

function calibrated(parts: KeepableParts, reading: Reading, message: Inbound): Reading | undefined {
  const { site, probe, quantity, value } = reading;
  if (quantity === 'temperature' && !parts.powerOn.accepts(reading)) {
    parts.refusals.count(powerOnError(reading), message.topic, message.payload);
    return undefined;
  }
  const better = parts.calibrate(site, probe, quantity, value);
  // The store could not keep what is no number, and everything behind it would wait.
  return better === value || !Number.isFinite(better) ? reading : { ...reading, value: better };
}

export function unclaimedError({ site, probe }: ProbeRef): ReadingError {
  return new ReadingError('too-many-unclaimed', message('refusal.unclaimed', { siteName: site, probeName: probe }));
}

function powerOnError({ site, probe, value }: Reading): ReadingError {
  return new ReadingError(
    'power-on-value',
    message('refusal.power-on', {
      siteName: site,
      probeName: probe,
      powerOnC,
      withinK: neighbourC,
      foundC: value,
    }),
  );
}
