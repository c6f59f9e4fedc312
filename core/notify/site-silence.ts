/** Whether it is one probe that fell silent, or everything at its site. */
import { msPerMinute } from '../../shared/units.ts';

export interface ProbeRhythm {
  readonly heardAtMs: number;
  /** Its usual interval; 0 while unknown. */
  readonly intervalMs: number;
}

export interface SiteSilence {
  /** `alone`: the site has no second probe to compare with. */
  readonly answer: 'silent' | 'speaks' | 'alone';
  /** When the last of them was heard. */
  readonly sinceMs: number;
}

/**
 * A probe is overdue when it has missed one of its own intervals by half [-], never within five minutes, and within half an hour while its
 * rhythm is unknown [ms]. Shorter than it takes to call one probe silent: that all are overdue at once is evidence by itself. Our own
 * choice, no source.
 */
const overdueIntervals = 1.5;
const leastMs = 5 * msPerMinute;
const unknownRhythmMs = 30 * msPerMinute;

export function siteSilence(probes: readonly ProbeRhythm[], nowMs: number): SiteSilence {
  const sinceMs = Math.max(...probes.map(({ heardAtMs }) => heardAtMs), Number.NEGATIVE_INFINITY);
  if (probes.length < 2) return { answer: 'alone', sinceMs };
  return { answer: probes.every((probe) => isOverdue(probe, nowMs)) ? 'silent' : 'speaks', sinceMs };
}

function isOverdue({ heardAtMs, intervalMs }: ProbeRhythm, nowMs: number): boolean {
  const allowedMs = intervalMs > 0 ? Math.max(leastMs, overdueIntervals * intervalMs) : unknownRhythmMs;
  return nowMs - heardAtMs > allowedMs;
}
