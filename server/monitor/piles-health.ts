/** Whether every pile is watched. */
import { message } from '../../shared/messages/message.ts';
import { type PartHealth, partHealth } from '../../shared/part-health.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { halfJudged, together, unjudged } from './troubles-words.ts';

export function pilesHealth(watch: Pick<PilePort, 'all' | 'troubles'>): PartHealth<'ok' | 'degraded' | 'down'> {
  const pileCount = watch.all().length;
  const troubles = watch.troubles();
  const said = together([unjudged(troubles, pileCount), halfJudged(troubles, pileCount)]);
  if (said === undefined) return partHealth('ok', message('health.piles.watched', { pileCount }));
  // Down only where nothing is left to watch: whoever restarts what is down would hurt the piles that are watched.
  const none = pileCount > 0 && troubles.filter(({ judged }) => !judged).length === pileCount;
  return partHealth(none ? 'down' : 'degraded', said);
}
