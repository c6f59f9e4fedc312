/**
 * Quiet hours and daily summaries by a person's own clock. Hours are never added to an instant and called the same time
 * tomorrow: clocks are put forward and back.
 */
import { msPerDay, msPerMinute } from '../../shared/units.ts';
import { dayOf, minuteOfDay, wallOf } from '../../shared/zoned-time.ts';

/** Of a day without a change of clocks [min], by definition. */
const minutesPerDay = 24 * 60;

export interface QuietHours {
  readonly fromMin: number;
  /** Excluded; before `fromMin` where the quiet goes over midnight. */
  readonly toMin: number;
}

export function isQuiet(quiet: QuietHours | null, atMs: number, timeZone: string): boolean {
  return quiet !== null && isWithin(quiet, minuteOfDay(atMs, timeZone));
}

/** @returns When quiet hours that run at `atMs` end; `atMs` itself when none run. */
export function quietEndsMs(quiet: QuietHours | null, atMs: number, timeZone: string): number {
  if (quiet === null || !isQuiet(quiet, atMs, timeZone)) return atMs;
  const firstMs = Math.ceil((atMs + 1) / msPerMinute) * msPerMinute;
  // The clocks may skip the one loud stretch of a day, or bring it late; the next day has it.
  const lastMs = firstMs + 2 * msPerDay + 3 * 60 * msPerMinute;
  for (let ms = firstMs; ms < lastMs; ms += msPerMinute) {
    if (!isQuiet(quiet, ms, timeZone)) return ms;
  }
  return lastMs;
}

/**
 * The day whose summary is due: its minute has come, or was skipped by the clocks, and not long ago. Whoever asks knows whether
 * that day's has been made; an hour that comes twice gives the same day twice.
 */
export function summaryDay(atMin: number | null, timeZone: string, nowMs: number): string | undefined {
  if (atMin === null) return undefined;
  const lateMin = minuteOfDay(nowMs, timeZone) - atMin;
  if (lateMin >= 0) return lateMin < mostLateMin ? dayOf(nowMs, timeZone) : undefined;
  if (lateMin + minutesPerDay >= mostLateMin) return undefined;
  return dayOf(wallOf(nowMs, timeZone) - msPerDay, 'UTC');
}

/** A summary that could not be made for so long would only confuse [min]; our own choice, no source. */
const mostLateMin = 6 * 60;

function isWithin({ fromMin, toMin }: QuietHours, minute: number): boolean {
  if (fromMin === toMin) return false;
  return (minute - fromMin + minutesPerDay) % minutesPerDay < (toMin - fromMin + minutesPerDay) % minutesPerDay;
}
