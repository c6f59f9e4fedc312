/**
 * The log, written beside the work: whoever reads it slowly, or not at all, holds nothing up. What they leave unread beyond
 * a few megabytes is lost, and how many lines that were is said once there is room again.
 */
import pino, { type DestinationStream, type Level, type Logger } from 'pino';
import { terminalLine } from './terminal-line.ts';

const mostUnreadBytes = 4_000_000;

export interface LogOptions {
  /** A person reads it: lines of text instead of JSON. */
  readonly onTerminal?: boolean;
  /** And how much may be left unread there: given by tests only. */
  readonly fd?: number;
  readonly mostBytes?: number;
}

export function openLog(level: Level | 'silent', options: LogOptions = {}): Logger {
  const { onTerminal = false, fd = 1, mostBytes = mostUnreadBytes } = options;
  const out = pino.destination({ dest: fd, sync: false, maxLength: mostBytes });
  // A terminal that was closed: the program is about to end, and must come to it.
  out.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EIO') throw error;
  });
  let lost = 0;
  const destination: DestinationStream = onTerminal ? { write: (line) => void out.write(terminalLine(line)) } : out;
  const log = pino({ level }, destination);
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
