/**
 * A message on a foreign topic becomes a reading. It never throws over what a message holds; a mapping that is wrong in
 * itself is named by `mappingProblem`.
 */

import type { z } from 'zod';
import type { MappingInput, mappingTrialSchema } from '../../shared/contracts/ingest.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { ReadingError } from '../../shared/errors.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { namePattern } from '../../shared/names.ts';
import type { Reading } from '../../shared/reading.ts';
import { trimSign } from '../../shared/trim-sign.ts';
import { checkedValue, unitsOf } from '../decode/checked-value.ts';
import { parseJson, parseNumber } from '../decode/decode-payload.ts';
import { type Arrival, foundSaid, quoted, whereSaid } from '../decode/decoded.ts';
import { readingTimeMs } from '../decode/reading-time.ts';
import { pointerProblem, valueAt } from './json-pointer.ts';
import { filterProblem, matchFilter, wildcardCount } from './topic-filter.ts';

export type MappingTrial = z.infer<typeof mappingTrialSchema>;

/** The field at fault as JSON Pointer into the mapping, and what it must be; undefined when the mapping can work. */
export function mappingProblem(mapping: MappingInput): { pointer: string; said: Message } | undefined {
  const filter = filterProblem(mapping.filter);
  if (filter !== undefined) return { pointer: '/filter', said: filter };
  const pointer = pointerProblem(mapping.pointer);
  if (pointer !== undefined) return { pointer: '/pointer', said: pointer };
  const timePointer = pointerProblem(mapping.timePointer ?? '');
  if (timePointer !== undefined) return { pointer: '/timePointer', said: timePointer };
  const units = unitsOf(mapping.quantity);
  if (!units.includes(mapping.unit)) {
    return {
      pointer: '/unit',
      said: message('field.mapping.unit', { unitsText: units.join(', '), quantityName: mapping.quantity }),
    };
  }
  const wildcards = wildcardCount(mapping.filter);
  for (const [, number] of mapping.probe.matchAll(/\{(\d+)\}/g)) {
    if (Number(number) < 1 || Number(number) > wildcards) {
      return {
        pointer: '/probe',
        said: message('field.mapping.wildcards', { wildcardsCount: wildcards }),
      };
    }
  }
  if (!/\{\d+\}/.test(mapping.probe) && !namePattern.test(mapping.probe)) {
    return { pointer: '/probe', said: message('field.name') };
  }
  return undefined;
}

/** @returns undefined when the mapping is not about this topic. */
export function applyMapping(
  mapping: MappingInput,
  topic: string,
  payload: string,
  arrival: Arrival,
): Reading | ReadingError | undefined {
  const captured = matchFilter(mapping.filter, topic);
  if (captured === undefined) return undefined;
  const probe = probeName(mapping.probe, captured);
  if (probe === '') {
    return new ReadingError(
      'topic-shape',
      message('refusal.probe-name', { templateText: quoted(mapping.probe), topicText: quoted(topic) }),
    );
  }
  const document = documentOf(mapping, payload);
  if (document instanceof ReadingError) return document;
  const found = numberAt(document, mapping.pointer);
  if (typeof found !== 'number') return found;
  const value = checkedValue(mapping.quantity, found * mapping.scale, mapping.unit, quoted(mapping.pointer));
  if (typeof value !== 'number') return value;
  const atMs = timeAt(document, mapping.timePointer, arrival);
  if (typeof atMs !== 'number') return atMs;
  return { site: mapping.site, probe, quantity: mapping.quantity, value, atMs };
}

/** What a mapping would make of messages; those it is not about are left out. */
export function tryMapping(
  mapping: MappingInput,
  messages: readonly { topic: string; payload: string; atMs: number }[],
): MappingTrial {
  const results: MappingTrial['results'] = [];
  for (const { topic, payload, atMs } of messages) {
    const reading = applyMapping(mapping, topic, payload, { nowMs: atMs, retained: false });
    if (reading === undefined) continue;
    if (reading instanceof ReadingError) {
      results.push({ topic, payload, reading: null, refusal: refusalView(reading) });
    } else {
      const { site, probe, quantity, value } = reading;
      results.push({
        topic,
        payload,
        reading: { site, probe, quantity, value, at: toInstant(reading.atMs) },
        refusal: null,
      });
    }
  }
  return { results };
}

const refusalView = ({ reason, said }: ReadingError) => ({ reason, ...inWords({ message: said }, 0) });

/** Fills {1}, {2} ... and makes the result fit the rule for names: small letters, anything else becomes a hyphen. */
export function probeName(template: string, captured: readonly string[]): string {
  const filled = template
    .replaceAll(/\{(\d+)\}/g, (_, number: string) => captured[Number(number) - 1] ?? '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9_-]+/g, '-');
  return trimSign(filled.slice(0, 64), '-');
}

function documentOf(mapping: MappingInput, payload: string): unknown {
  const wholeIsValue = mapping.pointer === '' && mapping.timePointer === undefined;
  return wholeIsValue ? (parseNumber(payload) ?? parseJson(payload)) : parseJson(payload);
}

/** Many devices write their numbers as text, so text that is one number counts as one here. */
function numberAt(document: unknown, pointer: string): number | ReadingError {
  const found = valueAt(document, pointer);
  if (found === undefined) {
    return new ReadingError(
      'no-such-pointer',
      message('refusal.pointer.value', { pointerText: quoted(pointer), foundPart: foundSaid(document) }),
    );
  }
  const value = typeof found === 'string' ? parseNumber(found) : found;
  if (typeof value === 'number') return value;
  return new ReadingError(
    'wrong-type',
    message('refusal.number', { wherePart: whereSaid(quoted(pointer)), foundPart: foundSaid(found) }),
  );
}

function timeAt(document: unknown, pointer: string | undefined, arrival: Arrival): number | ReadingError {
  if (pointer === undefined) return readingTimeMs(undefined, arrival, { place: 'mapping-time' });
  const found = valueAt(document, pointer);
  if (found === undefined) {
    return new ReadingError(
      'no-such-pointer',
      message('refusal.pointer.time', { pointerText: quoted(pointer), foundPart: foundSaid(document) }),
    );
  }
  if (typeof found === 'string' || typeof found === 'number') return readingTimeMs(found, arrival, quoted(pointer));
  return new ReadingError(
    'bad-time',
    message('refusal.json-time', { wherePart: whereSaid(quoted(pointer)), foundPart: foundSaid(found) }),
  );
}
