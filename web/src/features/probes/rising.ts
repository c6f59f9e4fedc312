/** Whether a probe is being warmed, as in a hand: by more than a shed warms in so short a time. */
export interface Seen {
  readonly atMs: number;
  readonly tempC: number;
}

const withinMs = 5 * 60_000;
/** No source: a hand warms a one-wire chip by this in less than a minute. */
const byK = 1;

/** What is still worth comparing, with a new value behind it. */
export function withSeen(seen: readonly Seen[], now: Seen): readonly Seen[] {
  if (seen.at(-1)?.atMs === now.atMs) return seen;
  return [...seen.filter(({ atMs }) => now.atMs - atMs <= withinMs), now];
}

export function isRising(seen: readonly Seen[]): boolean {
  const last = seen.at(-1);
  return last !== undefined && last.tempC - Math.min(...seen.map(({ tempC }) => tempC)) >= byK;
}
