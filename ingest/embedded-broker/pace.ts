/**
 * How fast one client may go: a bucket of packets that fills again at a steady rate. It never reads a clock of its
 * own; monotonic time is an argument, so that a clock set back holds nobody up.
 */
export interface Pace {
  spend(packets: number): void;
  /** 0 while there is something in the bucket [ms]. */
  waitMs(nowMs: number): number;
}

/** What one packet costs; so counted, a rate a second and times in ms make whole numbers. */
const perPacket = 1_000;

export function createPace(perSecond: number, burst: number, nowMs: number): Pace {
  const full = burst * perPacket;
  let left = full;
  let atMs = nowMs;
  return {
    spend(packets) {
      left -= packets * perPacket;
    },
    waitMs(now) {
      left = Math.min(full, left + (now - atMs) * perSecond);
      atMs = now;
      return left >= perPacket ? 0 : Math.ceil((perPacket - left) / perSecond);
    },
  };
}
