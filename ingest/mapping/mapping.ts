/**
 * A message on a foreign topic becomes readings. It never throws over what a message holds; a mapping that is wrong in
 * itself is named by `mappingProblem`.
 */
import type { MappedValue, MappingInput } from '../../shared/contracts/mappings.ts';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { Reading } from '../../shared/reading.ts';
import { checkedValue } from '../decode/checked-value.ts';
import { parseJson } from '../decode/decode-payload.ts';
import {
  type Arrival,
  type Decoded,
  foundSaid,
  noReadings,
  noRefusals,
  quoted,
  refused,
  whereSaid,
} from '../decode/decoded.ts';
import { isSaid } from '../decode/no-reading.ts';
import { readingTimeMs } from '../decode/reading-time.ts';
import { unitNamed } from '../decode/unit-names.ts';
import { valueAt } from './json-pointer.ts';
import { localTimeMs } from './local-time.ts';
import { filledName } from './name-template.ts';
import { matchFilter } from './topic-filter.ts';
import { parseValueText } from './value-text.ts';

/** Members of one list that are looked at. */
const mostMembers = 200;

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

/** What is the same for all values of one message. */
interface Context {
  readonly mapping: MappingInput;
  readonly topic: string;
  readonly captured: readonly string[];
  readonly document: unknown;
  readonly arrival: Arrival;
}

/** @returns undefined when the mapping is not about this topic. */
export function applyMapping(
  mapping: MappingInput,
  topic: string,
  payload: string,
  arrival: Arrival,
): Decoded | undefined {
  const captured = matchFilter(mapping.filter, topic);
  if (captured === undefined) return undefined;
  if (mapping.values.length === 0) return nothing;
  const document = documentOf(mapping, payload);
  if (document instanceof ReadingError) return refused(document);
  if (isOfUnknownAge(mapping, arrival)) return nothing;
  const context = { mapping, topic, captured, document, arrival };
  const readings: Reading[] = [];
  const refusals: ReadingError[] = [];
  const missing: ReadingError[] = [];
  for (const value of mapping.values) {
    for (const result of readValue(context, value)) {
      if (!(result instanceof ReadingError)) readings.push(result);
      else if (result.reason === 'no-such-pointer') missing.push(result);
      else refusals.push(result);
    }
  }
  // Devices do not say all they measure every time; a message that has nothing of it is another matter.
  const [first] = missing;
  if (first !== undefined && readings.length === 0 && refusals.length === 0) refusals.push(first);
  return { readings, refusals };
}

/** It lay in the broker, and says no time: nobody knows whether it is still so. */
export const isOfUnknownAge = ({ timePointer }: MappingInput, { retained }: Arrival): boolean =>
  retained && timePointer === undefined;

/** A text that is no JSON is a value by itself where one takes the whole message. */
function documentOf(mapping: MappingInput, payload: string): unknown {
  const parsed = parseJson(payload);
  const takesWhole = mapping.values.some(({ pointer, each }) => pointer === '' && each === undefined);
  return parsed instanceof ReadingError && takesWhole ? payload : parsed;
}

function readValue(context: Context, value: MappedValue): (Reading | ReadingError)[] {
  const { document } = context;
  if (value.each === undefined) return [readMember(context, value, document)].flatMap((one) => one ?? []);
  const members = membersAt(document, value.each);
  if (members === undefined) return [noSuchPlace(value.each, document)];
  const { only } = value;
  return members
    .filter((member) => only === undefined || textOf(valueAt(member, only.pointer)) === only.is)
    .flatMap((member) => readMember(context, value, member) ?? []);
}

function membersAt(document: unknown, pointer: string): unknown[] | undefined {
  const found = valueAt(document, pointer);
  if (Array.isArray(found)) return found.slice(0, mostMembers);
  if (typeof found !== 'object' || found === null) return undefined;
  return Object.values(found).slice(0, mostMembers);
}

/** @returns undefined where the device says that it has no reading now. */
function readMember(context: Context, value: MappedValue, member: unknown): Reading | ReadingError | undefined {
  const found = valueAt(member, value.pointer);
  if (found === undefined) return noSuchPlace(value.pointer, member);
  if ((found === null || typeof found === 'string' || typeof found === 'number') && !isSaid(found)) return undefined;
  const measured = measuredValue(value, found);
  if (typeof measured !== 'number') return measured;
  const named = namesOf(context, value, member);
  if (named instanceof ReadingError) return named;
  const atMs = timeOf(context, member);
  if (typeof atMs !== 'number') return atMs;
  return { ...named, quantity: value.quantity, value: measured, atMs };
}

function measuredValue({ quantity, unit, scale, offset, pointer }: MappedValue, found: unknown): number | ReadingError {
  const where = quoted(pointer);
  const read = typeof found === 'string' ? parseValueText(found) : { number: found, unit: '' };
  if (typeof read?.number !== 'number') {
    return new ReadingError(
      'wrong-type',
      message('refusal.number', { wherePart: whereSaid(where), foundPart: foundSaid(found) }),
    );
  }
  const said = read.unit === '' ? unit : (unitNamed(quantity, read.unit) ?? read.unit);
  const plain = scale === 1 && offset === 0;
  // Twelve digits, so that 413 tenths are 41.3.
  const number = plain ? read.number : Number((read.number * scale + offset).toPrecision(12));
  return checkedValue(quantity, number, said, where);
}

function namesOf(
  { mapping, topic, captured, document }: Context,
  value: MappedValue,
  member: unknown,
): { site: string; probe: string } | ReadingError {
  const textAt = (pointer: string) => textOf(valueAt(member, pointer) ?? valueAt(document, pointer)) ?? '';
  const template = value.probe ?? mapping.probe;
  const site = filledName(mapping.site, captured, textAt);
  const probe = filledName(template, captured, textAt);
  if (site !== '' && probe !== '') return { site, probe };
  const templateText = quoted(probe === '' ? template : mapping.site);
  return new ReadingError('topic-shape', message('refusal.probe-name', { templateText, topicText: quoted(topic) }));
}

function timeOf({ mapping, document, arrival }: Context, member: unknown): number | ReadingError {
  const { timePointer, timeZone } = mapping;
  if (timePointer === undefined) return readingTimeMs(undefined, arrival, { place: 'mapping-time' });
  const where = quoted(timePointer);
  const found = valueAt(member, timePointer) ?? valueAt(document, timePointer);
  if (found === undefined) {
    return new ReadingError(
      'no-such-pointer',
      message('refusal.pointer.time', { pointerText: where, foundPart: foundSaid(document) }),
    );
  }
  if (typeof found === 'string') {
    const localMs = timeZone === undefined ? undefined : localTimeMs(found, timeZone);
    return readingTimeMs(localMs ?? found, arrival, where);
  }
  if (typeof found === 'number') return readingTimeMs(found, arrival, where);
  return new ReadingError(
    'bad-time',
    message('refusal.json-time', { wherePart: whereSaid(where), foundPart: foundSaid(found) }),
  );
}

const noSuchPlace = (pointer: string, document: unknown) =>
  new ReadingError(
    'no-such-pointer',
    message('refusal.pointer.value', { pointerText: quoted(pointer), foundPart: foundSaid(document) }),
  );

function textOf(found: unknown): string | undefined {
  if (typeof found === 'string') return found;
  return typeof found === 'number' ? String(found) : undefined;
}
