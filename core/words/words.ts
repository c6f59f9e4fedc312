/** A length of time as letters still say it. */
import { msPerHour, msPerMinute } from '../../shared/units.ts';

/** @example duration(3 * 3600e3) // => "3 hours" */
export function duration(ms: number): string {
  if (ms < 1.5 * msPerHour) return counted(Math.max(1, Math.round(ms / msPerMinute)), 'minute');
  if (ms < 48 * msPerHour) return counted(Math.round(ms / msPerHour), 'hour');
  return counted(Math.round(ms / (24 * msPerHour)), 'day');
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}
