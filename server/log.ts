/**
 * The log, written beside the work: whoever reads it slowly, or not at all, holds nothing up. What they leave unread beyond
 * a few megabytes is lost, and how many lines that were is said once there is room again.
 */
import pino, { type DestinationStream, type Level, type Logger } from 'pino';

const mostUnreadBytes = 4_000_000;

/** @param fd And how much may be left unread there: given by tests only. */
export function openLog(level: Level | 'silent', fd = 1, mostBytes = mostUnreadBytes): Logger {
  const out = pino.destination({ dest: fd, sync: false, maxLength: mostBytes });
  let lost = 0;
  const log = pino({ level }, out as DestinationStream);
  out.on('drop', () => {
    lost += 1;
  });
  out.on('drain', () => {
    if (lost === 0) return;
    const lines = lost;
    lost = 0;
    log.warn({ lines }, 'nobody read the log for a while, and lines of it were lost');
  });
  process.on('exit', () => {
    try {
      out.flushSync();
    } catch {
      // Nobody reads it any more.
    }
  });
  return log;
}
