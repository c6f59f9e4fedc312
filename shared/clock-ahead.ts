import { msPerMinute } from './units.ts';

/** The clock of a probe, a program or in somebody’s hand may be so far ahead of ours: what is later is refused [ms]; our own choice. */
export const clockAheadMs = 5 * msPerMinute;
