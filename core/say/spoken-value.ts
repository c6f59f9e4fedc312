import { type Message, paragraph } from '../../shared/messages/message.ts';
import type { PilePosition } from '../profiles/pile-setup.ts';
import { valueMessage } from '../warnings/value-message.ts';
import type { AlarmFacts } from './saying.ts';

/** @returns A clause, to stand within a sentence: "the core was at 46 °C 20 hours ago". */
export function spokenAt(place: PilePosition, { assessment, temp }: AlarmFacts): Message {
  const sight = assessment.positions[place];
  return sight === null ? unspoken : valueMessage(place, sight, assessment.atMs, { isFirst: false, temp });
}

/** In the place of a value that is not to be said. */
export const unspoken = paragraph();
