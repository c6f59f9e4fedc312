/** What happened in a practice run, one by one. */

import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import type { Message } from '../../../../shared/messages/message.ts';
import type { PracticeAct } from '../../../../simulator/practice/scenarios/practice-scenario.ts';

export type DiaryEntry = { readonly atMs: number } & (
  | {
      readonly kind: 'act';
      readonly act: PracticeAct;
      /** What hand and nose found. */
      readonly found?: Message | undefined;
    }
  | { readonly kind: 'warning'; readonly alarm: Pick<AlarmSummary, 'kind' | 'position' | 'todo' | 'messages'> }
  | {
      readonly kind: 'away';
      /** Nobody was there for so long [h]. */
      readonly hours: number;
    }
);
