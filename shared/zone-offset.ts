/** How far the clocks of a time zone stand ahead of UTC. */
import { msPerMinute } from './units.ts';

const formats = new Map<string, Intl.DateTimeFormat>();
const offsets = new Map<string, number>();
/** Zones change at whole quarters of an hour. */
const stepMs = 15 * msPerMinute;

/** How far the clocks of a zone stand ahead of UTC at an instant [ms]. */
export function offsetMs(atMs: number, timeZone: string): number {
  if (timeZone === 'UTC') return 0;
  const step = Math.floor(atMs / stepMs);
  const key = `${timeZone} ${step}`;
  const known = offsets.get(key);
  if (known !== undefined) return known;
  let format = formats.get(timeZone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-US', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
    formats.set(timeZone, format);
  }
  const part = Object.fromEntries(format.formatToParts(step * stepMs).map(({ type, value }) => [type, Number(value)]));
  const wall = Date.UTC(
    part.year ?? 0,
    (part.month ?? 1) - 1,
    part.day ?? 1,
    part.hour ?? 0,
    part.minute ?? 0,
    part.second ?? 0,
  );
  if (offsets.size > 20_000) offsets.clear();
  offsets.set(key, wall - step * stepMs);
  return wall - step * stepMs;
}
