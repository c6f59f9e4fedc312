import type { MappingInput } from '../../shared/contracts/ingest.ts';
import { ReadingError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import { type Arrival, type Decoded, refused } from '../decode/decoded.ts';
import type { Devices } from '../devices/recognise-devices.ts';
import type { ForeignMessages } from '../mapping/foreign-messages.ts';
import { applyMapping } from '../mapping/mapping.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import { type Inbound, largestPayloadBytes, sizeProblem, textOf } from './inbound.ts';

export interface ForeignIntakeParts {
  /** Where messages are shown to a person who wants to map them. */
  readonly foreign: ForeignMessages;
  mappings(): readonly MappingInput[];
  /** Absent where devices are read by mappings alone. */
  readonly devices?: Devices | undefined;
}

/**
 * What a message says on a topic that is not ours: as a person mapped it, else as a device that is known by itself.
 * @returns undefined when neither is about this topic; what others send there is not ours to count.
 */
export function readForeign(parts: ForeignIntakeParts, message: Inbound, arrival: Arrival): Decoded | undefined {
  const { topic } = message;
  const payload = message.payload.length > largestPayloadBytes ? '' : textOf(message);
  const about = parts.mappings().filter((mapping) => matchFilter(mapping.filter, topic) !== undefined);
  // What a person mapped by hand is read that way alone.
  const decoded =
    about.length === 0
      ? readDevice(parts.devices, message, payload, arrival)
      : readMapped(about, message, payload, arrival);
  const isUsed = decoded !== undefined && decoded.readings.length + decoded.refusals.length > 0;
  parts.foreign.keep({ atMs: arrival.nowMs, topic, payload, isUsed });
  return decoded;
}

function readMapped(
  about: readonly MappingInput[],
  message: Inbound,
  payload: string,
  arrival: Arrival,
): Decoded | undefined {
  const mappings = about.filter(({ filter }) => message.cameBy?.(filter) !== false);
  if (mappings.length === 0) return undefined;
  const size = sizeProblem(message);
  if (size !== undefined) return refused(size);
  const readings: Reading[] = [];
  const refusals: ReadingError[] = [];
  for (const mapping of mappings) {
    const result = applyMapping(mapping, message.topic, payload, arrival);
    if (result instanceof ReadingError) refusals.push(result);
    else if (result !== undefined) readings.push(result);
  }
  return { readings, refusals };
}

function readDevice(
  devices: Devices | undefined,
  message: Inbound,
  text: string,
  arrival: Arrival,
): Decoded | undefined {
  // What is too long for a report is of somebody else; an empty one takes an introduction back.
  if (devices === undefined || message.payload.length > largestPayloadBytes) return undefined;
  const filter = message.cameBy && devices.filterOf(message.topic);
  if (filter !== undefined && message.cameBy?.(filter) === false) return undefined;
  return devices.read({ topic: message.topic, text, arrival, site: message.site });
}
