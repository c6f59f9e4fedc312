import { speaks } from '../../core/alarms/standing.ts';
import type { PileSummary } from '../../shared/contracts/piles.ts';
import type { PileState } from '../../shared/contracts/published.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { rankOf, severityOfRank } from '../../shared/notifications.ts';

/** How a pile stands, as programs are given it. */
export function pileState({ alarms, ...summary }: PileSummary, nowMs: number): PileState {
  return {
    version: 1,
    at: toInstant(nowMs),
    ...summary,
    alarm: worstOf(alarms),
    alarms: alarms.map(({ noted: _, ...alarm }) => alarm),
    lastHeardAt: newest(Object.values(summary.positions).flatMap(({ at }) => at ?? [])),
  };
}

/** A shelf keeps people from being notified, and changes nothing of how the pile stands. */
function worstOf(alarms: PileSummary['alarms']): PileState['alarm'] {
  const ranks = alarms.filter(speaks).map(({ severity }) => rankOf(severity));
  return ranks.length === 0 ? 'calm' : severityOfRank(Math.max(...ranks));
}

const newest = (instants: readonly string[]): string | null => instants.toSorted().at(-1) ?? null;
