import type { MappingInput, MappingTrial } from '../../shared/contracts/mappings.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { ReadingError } from '../../shared/errors.ts';
import { inWords } from '../../shared/messages/in-words.ts';
import type { ForeignMessage } from './foreign-messages.ts';
import { applyMapping, isOfUnknownAge } from './mapping.ts';

/** What a mapping would make of messages; those it is not about are left out. */
export function tryMapping(
  mapping: MappingInput,
  messages: readonly Pick<ForeignMessage, 'topic' | 'payload' | 'atMs' | 'isRetained'>[],
): MappingTrial {
  const results: MappingTrial['results'] = [];
  for (const { topic, payload, atMs, isRetained } of messages) {
    const arrival = { nowMs: atMs, retained: isRetained };
    const decoded = applyMapping(mapping, topic, payload, arrival);
    if (decoded === undefined) continue;
    results.push({
      topic,
      payload,
      isOfUnknownAge: isOfUnknownAge(mapping, arrival),
      readings: decoded.readings.map(({ atMs: readMs, ...reading }) => ({ ...reading, at: toInstant(readMs) })),
      refusals: decoded.refusals.map(refusalView),
    });
  }
  return { results };
}

const refusalView = ({ reason, said }: ReadingError) => ({ reason, ...inWords({ message: said }, 0) });
