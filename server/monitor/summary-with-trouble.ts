import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import type { OpenedPile } from '../pile/open-pile.ts';
import type { TroubleSeen } from '../pile/trouble-seen.ts';
import type { ProbeBook } from '../services/probes/probe-book.ts';
import { pileSummary } from '../services/views/pile-summary.ts';
import { troubleView, withTrouble } from '../services/views/trouble-view.ts';
import { unseenPile } from '../services/views/unjudged-pile.ts';

export interface SummaryParts {
  readonly probes: ProbeBook;
  readonly clock: Clock;
  readonly log: Pick<FastifyBaseLogger, 'error'>;
}

/** Never throws: a pile that cannot be summed up is shown as one that nobody judges, and keeps no other from being shown. */
export function summaryWithTrouble(
  { probes, clock, log }: SummaryParts,
  one: OpenedPile,
  trouble: TroubleSeen | null,
): PileSummary {
  try {
    return withTrouble(pileSummary(one, probes), trouble && troubleView(trouble));
  } catch (error) {
    const { pile, batch } = one;
    log.error({ err: error, pile: pile.id }, 'a pile cannot be shown');
    const unshown: TroubleSeen = {
      code: 'not-judged',
      judged: false,
      sinceMs: clock.nowMs(),
      rowCount: 0,
      details: [],
    };
    return withTrouble(unseenPile(pile, batch), troubleView(trouble ?? unshown));
  }
}
