import { isTimeZone } from '../../shared/zoned-time.ts';

/** "UTC" for a zone this machine does not know. */
export function knownZone(timeZone: string | null | undefined): string {
  if (!timeZone || !isTimeZone(timeZone)) return 'UTC';
  return new Intl.DateTimeFormat('en-GB', { timeZone }).resolvedOptions().timeZone;
}
