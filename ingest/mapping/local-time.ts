/** Times that clocks on walls showed, without an offset. */
import { instantOf, isTimeZone } from '../../shared/zoned-time.ts';

const pattern = /^(\d{4})-(\d{2})-(\d{2})[Tt ](\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,9}))?)?$/;

/** What the clock showed, as the instant at which one of UTC shows it [epoch ms]; undefined for what is no such time. */
export function parseLocalTime(text: string): number | undefined {
  const parts = pattern.exec(text);
  if (parts === null) return undefined;
  const [, year, month, day, hour, minute, second = '0', fraction = '0'] = parts;
  const wall = [Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second)] as const;
  const wallMs = Date.UTC(...wall);
  const shown = new Date(wallMs);
  const isReal =
    shown.getUTCMonth() === wall[1] &&
    shown.getUTCDate() === wall[2] &&
    shown.getUTCHours() === wall[3] &&
    wall[4] < 60;
  return isReal ? wallMs + Math.floor(Number(`0.${fraction}`) * 1000) : undefined;
}

/** @param timeZone Whose clocks; checked before. */
export function localTimeMs(text: string, timeZone: string): number | undefined {
  const wallMs = parseLocalTime(text.trim());
  return wallMs === undefined || !isTimeZone(timeZone) ? undefined : instantOf(wallMs, timeZone);
}
