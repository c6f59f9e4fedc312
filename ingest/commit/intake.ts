/**
 * What one message means: readings to keep, a probe's status, or a counted refusal. It never throws over what a message
 * holds, and stores nothing itself.
 */

import type { Clock } from '../../shared/clock.ts';
import type { MappingInput } from '../../shared/contracts/ingest.ts';
import { ReadingError } from '../../shared/errors.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { type AirAheadMessage, decodeAirAhead } from '../decode/air-ahead.ts';
import { decodeNumber, decodeReading } from '../decode/decode-payload.ts';
import {
  type Arrival,
  type Decoded,
  noReadings,
  noRefusals,
  type ProbeRef,
  refused,
  shown,
} from '../decode/decoded.ts';
import { neighbourC, type PowerOnGuard, powerOnC } from '../decode/power-on-guard.ts';
import type { Refusals } from '../decode/refusals.ts';
import { createTopicReader } from '../decode/topic.ts';
import type { Devices } from '../devices/recognise-devices.ts';
import type { ForeignMessages } from '../mapping/foreign-messages.ts';
import { applyMapping } from '../mapping/mapping.ts';
import { matchFilter } from '../mapping/topic-filter.ts';

export const largestPayloadBytes = 64 * 1024;

export interface Inbound {
  readonly topic: string;
  readonly payload: Buffer;
  /** It lay in the broker as a retained message. */
  readonly retained: boolean;
  /** Whether this copy of it came by that filter; when absent there is one copy for all. */
  cameBy?(filter: string): boolean;
  /** Of the key that its sender has. */
  readonly site?: string | undefined;
}

export interface IntakeOptions {
  readonly root: string;
  readonly clock: Clock;
  readonly refusals: Refusals;
  readonly powerOn: PowerOnGuard;
  readonly foreign: ForeignMessages;
  /** Absent where devices are read by mappings alone. */
  readonly devices?: Devices | undefined;
  mappings(): readonly MappingInput[];
  calibrate(site: string, probe: string, quantity: Quantity, value: number): number;
  admits(site: string, probe: string): boolean;
  onStatus(site: string, probe: string, online: boolean, atMs: number): void;
  /** Air foretold for a site; comes back with why it cannot be used. Absent where another process keeps it. */
  onAirAhead?: ((site: string, ahead: AirAheadMessage) => Promise<ReadingError | undefined>) | undefined;
}

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

export type Intake = (message: Inbound) => readonly Reading[];

export function createIntake(options: IntakeOptions): Intake {
  const { clock, refusals, powerOn, foreign, calibrate } = options;
  const topicOf = createTopicReader(options.root);

  function decode(message: Inbound, arrival: Arrival): Decoded {
    const route = topicOf(message.topic);
    if (route.kind === 'foreign') return decodeForeign(message, arrival) ?? nothing;
    // A mapping may know what to do with a shape below the root that we do not.
    if (route.kind === 'misshapen') return decodeForeign(message, arrival) ?? refused(route.error);
    const size = sizeProblem(message);
    if (size !== undefined) return refused(size);
    const text = textOf(message);
    if (route.kind === 'reading') return decodeReading(text, route.probe, arrival);
    if (route.kind === 'air-ahead') return readAirAhead(message, route.site, arrival);
    if (route.kind === 'value') return decodeNumber(text, route.probe, route.quantity, arrival);
    return readStatus(text, route.probe, arrival);
  }

  function readStatus(text: string, { site, probe }: ProbeRef, arrival: Arrival): Decoded {
    if (text !== 'online' && text !== 'offline') {
      const message = `Cannot read the status as it must be online or offline: found ${shown(text)}`;
      return refused(new ReadingError('wrong-type', message));
    }
    if (!options.admits(site, probe)) return refused(unclaimedError({ site, probe }));
    options.onStatus(site, probe, text === 'online', arrival.nowMs);
    return nothing;
  }

  function readAirAhead({ topic, payload }: Inbound, site: string, arrival: Arrival): Decoded {
    if (!options.onAirAhead) return nothing;
    const ahead = decodeAirAhead(payload.toString('utf8'), arrival);
    if (ahead instanceof ReadingError) return refused(ahead);
    void options.onAirAhead(site, ahead).then((error) => error && refusals.count(error, topic, payload));
    return nothing;
  }

  /** undefined when no mapping is about this topic; what others send there is not ours to count. */
  function decodeForeign(message: Inbound, arrival: Arrival): Decoded | undefined {
    const { topic } = message;
    const payload = message.payload.length > largestPayloadBytes ? '' : textOf(message);
    foreign.keep({ atMs: arrival.nowMs, topic, payload });
    const about = options.mappings().filter((mapping) => matchFilter(mapping.filter, topic) !== undefined);
    // What a person mapped by hand is read that way alone.
    if (about.length === 0) return recognised(message, payload, arrival);
    const mappings = about.filter(({ filter }) => message.cameBy?.(filter) !== false);
    if (mappings.length === 0) return undefined;
    const size = sizeProblem(message);
    if (size !== undefined) return refused(size);
    const readings: Reading[] = [];
    const refusals: ReadingError[] = [];
    for (const mapping of mappings) {
      const result = applyMapping(mapping, topic, payload, arrival);
      if (result instanceof ReadingError) refusals.push(result);
      else if (result !== undefined) readings.push(result);
    }
    return { readings, refusals };
  }

  function recognised(message: Inbound, text: string, arrival: Arrival): Decoded | undefined {
    const { devices } = options;
    // What is too long for a report is of somebody else; an empty one takes an introduction back.
    if (devices === undefined || message.payload.length > largestPayloadBytes) return undefined;
    const filter = message.cameBy && devices.filterOf(message.topic);
    if (filter !== undefined && message.cameBy?.(filter) === false) return undefined;
    return devices.read({ topic: message.topic, text, arrival, site: message.site });
  }

  /** Leaves out what comes from probes that there is no room for, and counts it once a message. */
  function admitted(readings: readonly Reading[], message: Inbound): readonly Reading[] {
    const stranger = readings.find(({ site, probe }) => !options.admits(site, probe));
    if (stranger === undefined) return readings;
    refusals.count(unclaimedError(stranger), message.topic, message.payload);
    return readings.filter(({ site, probe }) => options.admits(site, probe));
  }

  /** Sets readings aside that a chip gave before its first measurement, and calibrates the others. */
  function trusted(readings: readonly Reading[], message: Inbound): readonly Reading[] {
    let changed: Reading[] | undefined; // made only once something differs from what was decoded
    let index = 0;
    for (const reading of readings) {
      const kept = calibrated(reading, message);
      if (kept !== reading) changed ??= readings.slice(0, index);
      if (kept !== undefined) changed?.push(kept);
      index += 1;
    }
    return changed ?? readings;
  }

  function calibrated(reading: Reading, message: Inbound): Reading | undefined {
    const { site, probe, quantity, value } = reading;
    if (quantity === 'temperature' && !powerOn.accepts(reading)) {
      refusals.count(powerOnError(reading), message.topic, message.payload);
      return undefined;
    }
    const better = calibrate(site, probe, quantity, value);
    // The store could not keep what is no number, and everything behind it would wait.
    return better === value || !Number.isFinite(better) ? reading : { ...reading, value: better };
  }

  return (message) => {
    const decoded = decode(message, { nowMs: clock.nowMs(), retained: message.retained });
    for (const error of decoded.refusals) refusals.count(error, message.topic, message.payload);
    if (decoded.readings.length === 0) return decoded.readings;
    return trusted(admitted(decoded.readings, message), message);
  };
}

function textOf(message: Inbound): string {
  return message.payload.toString('utf8');
}

function sizeProblem({ payload }: Inbound): ReadingError | undefined {
  if (payload.length > largestPayloadBytes) {
    return new ReadingError(
      'payload-too-large',
      `Cannot accept the message as it must be at most ${largestPayloadBytes} bytes: found ${payload.length}`,
    );
  }
  if (payload.length > 0) return undefined;
  return new ReadingError('payload-empty', 'Cannot read the message as it must hold a reading: found 0 bytes');
}

function unclaimedError({ site, probe }: ProbeRef): ReadingError {
  return new ReadingError(
    'too-many-unclaimed',
    `Cannot listen to another probe that no pile has, as there are as many as may be: found ${site}/${probe}`,
  );
}

function powerOnError({ site, probe, value }: Reading): ReadingError {
  return new ReadingError(
    'power-on-value',
    `Cannot trust temperature of ${site}/${probe} as ${powerOnC} °C must have a value within ${neighbourC} °C in the hour before it: found ${value} alone`,
  );
}
