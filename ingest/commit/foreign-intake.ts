import type { MappingInput } from '../../shared/contracts/mappings.ts';
import { ReadingError } from '../../shared/errors.ts';
import { message as said } from '../../shared/messages/message.ts';
import type { Reading } from '../../shared/reading.ts';
import { type Arrival, type Decoded, noReadings, quoted, refused } from '../decode/decoded.ts';
import type { Devices } from '../devices/recognise-devices.ts';
import type { ForeignMessage, ForeignMessages } from '../mapping/foreign-messages.ts';
import type { MappedAvailability } from '../mapping/mapped-availability.ts';
import { applyMapping } from '../mapping/mapping.ts';
import { brokerFilter, matchFilter } from '../mapping/topic-filter.ts';
import { type Inbound, largestPayloadBytes, sizeProblem, textOf } from './inbound.ts';

export interface ForeignIntakeParts {
  /** Where messages are shown to a person who wants to map them. */
  readonly foreign: ForeignMessages;
  mappings(): readonly MappingInput[];
  readonly availability: MappedAvailability;
  /** Absent where devices are read by mappings alone. */
  readonly devices?: Devices | undefined;
}

/**
 * What a message says on a topic that is not ours: as a person mapped it, else as a device that is known by itself.
 * @returns undefined when neither is about this topic; what others send there is not ours to count.
 */
export function readForeign(parts: ForeignIntakeParts, message: Inbound, arrival: Arrival): Decoded | undefined {
  const { topic, site, confinedTo } = message;
  const payload = message.payload.length > largestPayloadBytes ? '' : textOf(message);
  const about = parts.mappings().filter((mapping) => isAbout(mapping, topic));
  // What a person mapped by hand is read that way alone.
  const decoded =
    about.length === 0
      ? readDevice(parts.devices, message, payload, arrival)
      : readMapped({ about, availability: parts.availability }, message, payload, arrival);
  const isUsed = about.length > 0 || (decoded !== undefined && decoded.readings.length + decoded.refusals.length > 0);
  parts.foreign.keep({ atMs: arrival.nowMs, topic, payload, isRetained: arrival.retained, site, confinedTo, isUsed });
  return decoded;
}

/** What the last message of a topic says by a mapping that was made after it came: as of when it came, so that nothing counts twice. */
export function readLast(
  { foreign, availability }: Pick<ForeignIntakeParts, 'foreign' | 'availability'>,
  mapping: MappingInput,
  { topic, payload, atMs: nowMs, isRetained: retained, site, confinedTo }: ForeignMessage,
): { readonly readings: readonly Reading[]; readonly message: Inbound } {
  const message = { topic, payload: Buffer.from(payload), retained, site, confinedTo };
  foreign.use(topic);
  // What cannot be read was shown before the mapping was kept, and is no message refused.
  const decoded = readMapped({ about: [mapping], availability }, message, payload, { nowMs, retained });
  return { readings: decoded?.readings ?? noReadings, message };
}

export const isAbout = ({ filter, availability }: MappingInput, topic: string): boolean =>
  matchFilter(filter, topic) !== undefined ||
  (availability !== undefined && matchFilter(availability.filter, topic) !== undefined);

interface Mapped {
  readonly about: readonly MappingInput[];
  readonly availability: MappedAvailability;
}

function readMapped(
  { about, availability }: Mapped,
  message: Inbound,
  payload: string,
  arrival: Arrival,
): Decoded | undefined {
  const { topic } = message;
  const came = (filter: string) => message.cameBy?.(brokerFilter(filter)) !== false;
  for (const mapping of about)
    if (mapping.availability !== undefined && came(mapping.availability.filter))
      availability.take(mapping, topic, payload, arrival.nowMs);
  const mappings = about.filter(({ filter }) => matchFilter(filter, topic) !== undefined && came(filter));
  if (mappings.length === 0) return undefined;
  const size = mappings.some(({ values }) => values.length > 0) ? sizeProblem(message) : undefined;
  if (size !== undefined) return refused(size);
  const readings: Reading[] = [];
  const refusals: ReadingError[] = [];
  for (const mapping of mappings) {
    const decoded = applyMapping(mapping, topic, payload, arrival);
    if (decoded === undefined) continue;
    const kept = decoded.readings.filter(({ site }) => isWithin(message, site));
    if (kept.length < decoded.readings.length) refusals.push(beyondKey(message));
    availability.heard(mapping, topic, kept, arrival);
    readings.push(...kept);
    refusals.push(...decoded.refusals);
  }
  return { readings, refusals };
}

const isWithin = ({ confinedTo }: Inbound, site: string) => confinedTo === undefined || confinedTo === site;

const beyondKey = ({ confinedTo = '', topic }: Inbound) =>
  new ReadingError('not-its-topic', said('refusal.other-site', { siteName: confinedTo, topicText: quoted(topic) }));

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
