/**
 * Looks every few seconds how much room the data folder has left. It never stops anything: a store that finds no room
 * says so itself, keeps what was acknowledged and goes on once there is.
 */

import { statfs } from 'node:fs/promises';
import type { Clock } from '../../shared/clock.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { type PartHealth, partHealth } from '../../shared/part-health.ts';
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

export type DiskHealth = PartHealth;

const lookEveryMs = 5_000;
const todo = message('notice.system.disk.todo');

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
    await this.check();
    this.#timer = setInterval(() => void this.check(), lookEveryMs).unref();
    return this;
  }

  close(): void {
    clearInterval(this.#timer);
  }

  async check(): Promise<void> {
    const { folder, lowBytes, freeBytes = freeOf, notices, clock, log } = this.#parts;
    try {
      const free = await freeBytes(folder);
      this.#freeBytes = free;
      this.#problem = '';
      const { level, arrow } = stepDisk(this.#level, free, lowBytes);
      this.#level = level;
      if (arrow === 'stay') return;
      const seen = this.#seen();
      const said = plainEnglish(seen);
      if (level === 'ok') {
        log.info({ arrow, free }, said);
        notices.clear('disk');
      } else {
        log.warn({ arrow, free }, said);
        const severity = level === 'full' ? 'critical' : 'warning';
        notices.raise({ kind: 'disk', severity, sinceMs: clock.nowMs(), seen, todo });
      }
    } catch (error) {
      this.#problem = error instanceof Error ? error.message : String(error);
    }
  }

  health(): DiskHealth {
    if (this.#problem !== '' || this.#freeBytes === undefined) {
      return partHealth('degraded', message('health.disk.unseen', { problemText: this.#problem }));
    }
    const state = ({ ok: 'ok', low: 'degraded', full: 'down' } as const)[this.#level];
    return partHealth(state, paragraph(this.#seen(), this.#level === 'ok' ? null : todo));
  }

  #seen(): Message {
    const room = { freeBytes: this.#freeBytes ?? 0 };
    if (this.#level === 'full') return message('notice.system.disk.full', room);
    return this.#level === 'low' ? message('notice.system.disk.low', room) : message('notice.system.disk.room', room);
  }
}

async function freeOf(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize;
}
