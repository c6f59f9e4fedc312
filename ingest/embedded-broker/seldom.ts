/** A log that strangers cannot fill: so many lines in a while, then how many were left out. */
import type { IngestLog } from '../commit/inbound-source.ts';

const mostLines = 20;
const inMs = 60_000;

export function warnSeldom(log: IngestLog): (fields: object, message: string) => void {
  let beganMs = Number.NEGATIVE_INFINITY;
  let lines = 0;
  return (fields, message) => {
    const nowMs = performance.now();
    if (nowMs - beganMs >= inMs) {
      if (lines > mostLines) log.warn({ leftOut: lines - mostLines }, 'such lines were left out');
      beganMs = nowMs;
      lines = 0;
    }
    lines += 1;
    if (lines <= mostLines) log.warn(fields, message);
  };
}
