import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { type Arrival, type Decoded, noReadings, noRefusals, refused } from '../decode/decoded.ts';
import type { DeviceMemory } from './device-memory.ts';
import { deviceReadings } from './device-readings.ts';
import type { DeviceReport, FamilySays } from './family.ts';

export const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

/** Where and when something was said. */
export interface Heard {
  readonly site: string;
  readonly arrival: Arrival;
}

/**
 * What a message of a family's devices says, remembered.
 * @param family Where the message does not say itself of which it is.
 * @returns undefined when the message is none of the family's.
 */
export function takeReports(memory: DeviceMemory, family: string, says: FamilySays, heard: Heard): Decoded | undefined {
  if (says === undefined || says === 'ours') return says && nothing;
  if ('via' in says) {
    memory.saidAvailability(says.family ?? family, heard.site, says, heard.arrival.nowMs);
    return nothing;
  }
  const all = says.map((report) => takeReport(memory, report.family ?? family, report, heard));
  const [only] = all;
  if (all.length === 1 && only !== undefined) return only;
  return {
    readings: all.flatMap(({ readings }) => readings),
    refusals: all.flatMap(({ refusals }) => refusals),
  };
}

function takeReport(memory: DeviceMemory, family: string, report: DeviceReport, { site, arrival }: Heard): Decoded {
  const decoded = deviceReadings(report, site, arrival, (probe) => memory.knows(family, site, report.via, probe));
  if (decoded.readings.length === 0) return decoded;
  const sensor = `${family} ${report.device}`;
  const taken = decoded.readings.find(({ probe }) => memory.isTaken(site, probe, sensor));
  if (taken !== undefined) return refused(...decoded.refusals, nameTaken(site, taken.probe, report.device));
  const probes = new Set(decoded.readings.map(({ probe }) => probe));
  memory.heard(family, site, report, probes, arrival);
  return decoded;
}

function nameTaken(site: string, probe: string, device: string): ReadingError {
  return new ReadingError(
    'name-taken',
    message('refusal.name-taken', { siteName: site, probeName: probe, deviceName: device }),
  );
}
