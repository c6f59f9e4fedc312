/**
 * What is said of a pile that cannot be judged as it should be. It never reads as if the pile were well.
 */
import { type Message, message } from '../../shared/messages/message.ts';
import type { PileTroubleCode } from '../../shared/pile-trouble.ts';

export interface TroubleFacts {
  readonly code: PileTroubleCode;
  /** Whether the pile is watched all the same. */
  readonly judged: boolean;
  /** How many records cannot be read. */
  readonly rowCount: number;
}

const backup = message('say.trouble.todo.backup');
const again = message('say.trouble.todo.again');

export function sayTrouble({ code, judged, rowCount }: TroubleFacts): {
  readonly says: Message;
  readonly todo: Message;
} {
  switch (code) {
    case 'batch-unreadable':
      return judged
        ? { says: message('say.trouble.batch-judged'), todo: message('say.trouble.todo.batch-judged') }
        : { says: message('say.trouble.batch'), todo: backup };
    case 'records-unreadable':
      return judged
        ? {
            says: message('say.trouble.records-judged', { rowCount }),
            todo: message('say.trouble.todo.records-judged'),
          }
        : { says: message('say.trouble.records', { rowCount }), todo: backup };
    case 'readings-unreadable':
      return { says: message('say.trouble.readings'), todo: again };
    case 'not-judged':
      return { says: message('say.trouble.not-judged'), todo: again };
    case 'not-kept':
      return { says: message('say.trouble.not-kept'), todo: message('say.trouble.todo.not-kept') };
  }
}
