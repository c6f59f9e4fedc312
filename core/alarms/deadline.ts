/**
 * By when an alarm's advice is to be followed: set when it is raised, kept with it, and never put off. Each look at a pile would
 * give a later time; kept, it passes, and what was due is overdue.
 */

/** @param raisedAnew The alarm was just raised, or came back. @param keptMs Null while none was set. */
export function keptDeadline(keptMs: number | null, seenMs: number | null, raisedAnew: boolean): number | null {
  if (raisedAnew || keptMs === null) return seenMs;
  // What grows graver, or is foretold for sooner, may bring it forward.
  return seenMs === null ? keptMs : Math.min(keptMs, seenMs);
}
