/**
 * Looks every few seconds how much room the data folder has left. It never stops anything: a store that finds no room
 * says so itself, keeps what was acknowledged and goes on once there is.
 */
import { statfs } from 'node:fs/promises';
import type { Clock } from '../../shared/clock.ts';
import { type DiskLevel, stepDisk } from './disk-level.ts';
import type { SystemNotices } from './system-notices.ts';

export interface DiskWatchParts {
  readonly folder: string;
  readonly lowBytes: number;
  readonly clock: Clock;
  readonly log: { info(fields: object, message: string): void; warn(fields: object, message: string): void };
  readonly notices: SystemNotices;
  /** Bytes that we may still write there. */
  readonly freeBytes?: (folder: string) => Promise<number>;
}

export interface DiskHealth {
  readonly state: 'ok' | 'degraded' | 'down' | 'off';
  readonly detail: string;
}

const lookEveryMs = 5_000;
const todo =
  'Make room: move old files away, give the data folder a larger disk, or have old readings thinned. Back up first.';

export class DiskWatch {
  readonly #parts: DiskWatchParts;
  #level: DiskLevel = 'ok';
  #freeBytes: number | undefined;
  #problem = '';
  #timer: NodeJS.Timeout | undefined;

  constructor(parts: DiskWatchParts) {
    this.#parts = parts;
  }

  async start(): Promise<this> {
    await this.look();
    this.#timer = setInterval(() => void this.look(), lookEveryMs).unref();
    return this;
  }

  close(): void {
    clearInterval(this.#timer);
  }

  async look(): Promise<void> {
    const { folder, lowBytes, freeBytes = freeOf, notices, clock, log } = this.#parts;
    try {
      const free = await freeBytes(folder);
      this.#freeBytes = free;
      this.#problem = '';
      const { level, arrow } = stepDisk(this.#level, free, lowBytes);
      this.#level = level;
      if (arrow === 'stay') return;
      const said = this.#sentence();
      if (level === 'ok') {
        log.info({ arrow, free }, said);
        notices.clear('disk');
      } else {
        log.warn({ arrow, free }, said);
        const severity = level === 'full' ? 'critical' : 'warning';
        notices.raise({ kind: 'disk', severity, sinceMs: clock.nowMs(), seen: said, todo });
      }
    } catch (error) {
      this.#problem = error instanceof Error ? error.message : String(error);
    }
  }

  health(): DiskHealth {
    if (this.#problem !== '' || this.#freeBytes === undefined) {
      return { state: 'degraded', detail: `How much room is left cannot be seen (${this.#problem})` };
    }
    const state = ({ ok: 'ok', low: 'degraded', full: 'down' } as const)[this.#level];
    return { state, detail: this.#level === 'ok' ? this.#sentence() : `${this.#sentence()} ${todo}` };
  }

  #sentence(): string {
    const room = sizeWords(this.#freeBytes ?? 0);
    if (this.#level === 'full') {
      return `The disk is full: ${room} left for the data folder. Readings that find no room are not acknowledged, so probes that publish at QoS 1 keep them.`;
    }
    return this.#level === 'low'
      ? `The disk is nearly full: ${room} left for the data folder.`
      : `${room} left for the data folder.`;
  }
}

async function freeOf(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize;
}

/** @example sizeWords(1_234_000_000) // => '1.2 GB' */
export function sizeWords(bytes: number): string {
  if (bytes >= 1e9) return `${(bytes / 1e9).toFixed(1)} GB`;
  return bytes >= 1e6 ? `${Math.floor(bytes / 1e6)} MB` : `${Math.floor(bytes / 1e3)} kB`;
}
