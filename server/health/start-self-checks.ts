import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { ExamineJournal } from './examine-journal.ts';
import type { SystemNotices } from './system-notices.ts';
import { TroubleWatch } from './trouble-watch.ts';

export interface SelfCheckParts {
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly journal: Pick<Journal, 'examine' | 'unreadable'>;
  readonly watch: Pick<PilePort, 'all' | 'troubles'>;
  readonly notices: SystemNotices;
}

/** Looks from now on for piles that nobody watches and for records that cannot be read; close both in this order. */
export function startSelfChecks({ clock, log, journal, watch, notices }: SelfCheckParts): {
  readonly examining: ExamineJournal;
  readonly troubles: TroubleWatch;
} {
  const troubles = new TroubleWatch({ watch, unreadable: journal.unreadable, clock, notices });
  troubles.start();
  const examining = new ExamineJournal({ journal, log });
  examining.start();
  return { examining, troubles };
}
