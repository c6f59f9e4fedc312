import { type Message, message } from '../../shared/messages/message.ts';
import type { WarningKind } from '../../shared/warning.ts';

const heatTodo: Partial<Record<WarningKind, Message>> = {
  'self-heating': message('say.eased.self-heating'),
  overheating: message('say.eased.overheating'),
  'overheating-soon': message('say.eased.overheating-soon'),
};
const anyTodo = message('say.eased.other');

/** What to do while an alarm stands whose cause is seen no longer: what it asked for before would now do harm, or nothing. */
export function easedTodo(kind: WarningKind): Message {
  return heatTodo[kind] ?? anyTodo;
}
