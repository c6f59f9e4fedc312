import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { handInBelowC } from '../../shared/squeeze.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import type { PracticeActKind } from './scenarios/practice-scenario.ts';

const keepAwayC = selfHeatingLadder.find(({ mayOpen }) => !mayOpen)?.fromC ?? Number.NaN;

/** What is said before anybody puts hands into a pile, real or not; in the words used wherever a pile is worked on. */
export const cautions: readonly Message[] = [
  message('caution.practice'),
  message('caution.spores'),
  message('caution.scald'),
  message('caution.shed-air'),
  message('caution.self-heating', { heatsC: selfHeatingLadder[0].fromC, keepAwayC }),
  message('caution.using'),
];

const open = message('practice.caution.open');

/** Said again beside the act that needs it. */
export const actCautions = {
  turn: open,
  spread: open,
  heap: message('practice.caution.heap'),
  'add-dry-bran': message('practice.caution.dry-bran'),
  'close-shed': message('practice.caution.closed-shed'),
  squeeze: paragraph(message('caution.handful-by-fork', { hotC: handInBelowC }), message('caution.hands')),
  'look-and-smell': message('caution.smelling'),
} as const satisfies Partial<Record<PracticeActKind, Message>>;
