/**
 * @param locale BCP 47 with its region, as browsers say it; undefined asks this machine.
 * @returns Whether hours are read with am and pm there.
 * @example isHour12('en-US') // => true; isHour12('en-GB') // => false
 */
export function isHour12(locale: string | undefined): boolean {
  return new Intl.DateTimeFormat(locale, { hour: 'numeric' }).resolvedOptions().hour12 ?? false;
}

/** A time of day, the same on pages and in sentences. */
export function clockOptions(hour12: boolean) {
  return { hour: hour12 ? 'numeric' : '2-digit', minute: '2-digit', hourCycle: hour12 ? 'h12' : 'h23' } as const;
}
