/**
 * Which sites a worker should take or let go, so that all have their share. It never moves a site between workers that
 * both have their share: each move costs reading its piles anew.
 */
import type { LeaseTable } from '../../shared/store/journal.ts';
import { whole } from './single-process.ts';

export interface Assignment {
  readonly take: readonly string[];
  readonly letGo: readonly string[];
}

export function assignSites({ nowMs, leases: all, workers }: LeaseTable, me: string): Assignment {
  const leases = all.filter(({ site }) => site !== whole);
  const held = new Map(workers.map(({ id }) => [id, [] as string[]]));
  const free: string[] = [];
  for (const { site, holder, untilMs } of leases) {
    if (holder === null || untilMs <= nowMs) free.push(site);
    // A worker that forgot to say it is alive still has what nobody took from it.
    else held.get(holder)?.push(site);
  }
  const mine = held.get(me);
  if (!mine) return { take: [], letGo: [] };
  const least = Math.floor(leases.length / workers.length);
  const most = Math.ceil(leases.length / workers.length);

  if (mine.length > most) return { take: [], letGo: mine.slice(most) };
  if (free.length > 0) return { take: mySlice(free, held, me).slice(0, most - mine.length), letGo: [] };
  const short = [...held.values()].some((sites) => sites.length < least);
  const richest = [...held].sort(([a, x], [b, y]) => y.length - x.length || (a < b ? -1 : 1))[0];
  if (short && mine.length > least && richest?.[0] === me) return { take: [], letGo: mine.slice(-1) };
  return { take: [], letGo: [] };
}

/** Everybody starts elsewhere in the list, so that not all reach for the same site. */
function mySlice(free: readonly string[], held: ReadonlyMap<string, unknown>, me: string): string[] {
  const index = [...held.keys()].sort().indexOf(me);
  const from = Math.floor((index * free.length) / Math.max(1, held.size));
  return [...free.slice(from), ...free.slice(0, from)];
}
