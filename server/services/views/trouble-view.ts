/**
 * What stands in the way of a pile, as the API shows it: code, sentence, and what the program met.
 */
import { sayTrouble } from '../../../core/say/trouble-sentence.ts';
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import type { PileTrouble } from '../../../shared/pile-trouble.ts';
import type { TroubleSeen } from '../../pile/trouble-seen.ts';

export function troubleView(seen: TroubleSeen): PileTrouble {
  const { code, judged, sinceMs, details } = seen;
  return { code, judged, since: toInstant(sinceMs), ...inWords(sayTrouble(seen), sinceMs), details: [...details] };
}

/** Of a pile that nobody judges, nothing else is said. */
export function withTrouble(summary: PileSummary, trouble: PileTrouble | null): PileSummary {
  if (trouble === null) return summary;
  if (trouble.judged) return { ...summary, trouble };
  const inDanger = summary.alarms.some(({ severity, state }) => severity === 'danger' && state !== 'shelved');
  const { says: condition, todo: next, messages } = trouble;
  return {
    ...summary,
    condition,
    next,
    messages: messages && { condition: messages.says, next: messages.todo },
    tone: inDanger ? 'danger' : 'act',
    trouble,
  };
}
