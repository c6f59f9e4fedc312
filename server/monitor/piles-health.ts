/**
 * Whether every pile is watched, in one line.
 */
import type { PilePort } from './pile/pile-port.ts';
import { halfJudgedWords, unjudgedWords } from './troubles-words.ts';

export interface PilesHealth {
  readonly state: 'ok' | 'degraded' | 'down';
  readonly detail: string;
}

export function pilesHealth(watch: Pick<PilePort, 'all' | 'troubles'>): PilesHealth {
  const count = watch.all().length;
  const troubles = watch.troubles();
  const unjudged = unjudgedWords(troubles, count);
  const said = [unjudged, halfJudgedWords(troubles, count)].filter((part) => part !== undefined).join('; ');
  if (said === '') return { state: 'ok', detail: count === 1 ? 'the pile is watched' : `${count} piles are watched` };
  // Down only where nothing is left to watch: whoever restarts what is down would hurt the piles that are watched.
  const none = count > 0 && troubles.filter(({ judged }) => !judged).length === count;
  return { state: none ? 'down' : 'degraded', detail: said };
}
