import { type Message, paragraph } from '../../shared/messages/message.ts';
import type { PilePosition } from '../profiles/pile-setup.ts';
import { valueMessage } from '../warnings/value-message.ts';
import type { AlarmFacts } from './saying.ts';

/** @returns A clause, to stand within a sentence: "the core was at 46 °C 20 hours ago". */
export function spokenAt(position: PilePosition, { assessment, temp }: AlarmFacts): Message {
  const sight = assessment.positions[position];
  return sight === null ? unspoken : valueMessage(position, sight, assessment.atMs, { isFirst: false, temp });
}

/** Instead of a value that is not to be said. */
export const unspoken = paragraph();
