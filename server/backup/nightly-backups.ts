/**
 * A backup each night, made by a process of its own that everything else goes before, so that nothing waits for it. Only what was
 * opened and read back counts; owners are notified when the newest of those is older than three days.
 */
import { spawn } from 'node:child_process';
import { mkdir, readdir, rm, stat } from 'node:fs/promises';
import { setPriority } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastifyBaseLogger } from 'fastify';
import type { Config } from '../../shared/config.ts';
import type { BackupsAnswer } from '../../shared/contracts/backups.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { message } from '../../shared/messages/message.ts';
import { msPerDay } from '../../shared/units.ts';
import type { SystemNotices } from '../health/system-notices.ts';
import { isDue, isOld, type Kept, keptOf, nightlyName, spare } from './nightly-rules.ts';

export interface NightlyBackupsParts {
  readonly config: Pick<Config, 'DATA_DIR' | 'BACKUPS' | 'BACKUP_COMMAND' | 'CLOCK' | 'JOURNAL_URL' | 'READINGS_URL'>;
  readonly folder: string;
  readonly log: Pick<FastifyBaseLogger, 'info' | 'error'>;
  readonly notices: Pick<SystemNotices, 'raise' | 'clear'>;
  /** The machine's clock: a night is one of this place. */
  readonly nowMs?: (() => number) | undefined;
  /** Given by tests only: makes the file, or throws. */
  readonly make?: (file: string) => Promise<void>;
}

const lookEveryMs = 60_000;
const lowestPriority = 19;

export class NightlyBackups {
  readonly #parts: NightlyBackupsParts;
  readonly #state: BackupsAnswer['state'];
  readonly #stopping = new AbortController();
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> | undefined;
  #triedMs: number | undefined;
  #problem: string | null = null;

  constructor(parts: NightlyBackupsParts) {
    this.#parts = parts;
    const { BACKUPS, CLOCK, JOURNAL_URL, READINGS_URL } = parts.config;
    // A clock that runs fast is for practice, and what it fills is thrown away.
    if (JOURNAL_URL !== undefined && READINGS_URL !== undefined) this.#state = 'elsewhere';
    else this.#state = BACKUPS === 0 || CLOCK !== undefined ? 'off' : 'on';
  }

  async start(): Promise<void> {
    if (this.#state !== 'on') return;
    await this.check();
    this.#timer = setInterval(() => void this.check(), lookEveryMs).unref();
  }

  /** Ends one that is under way; it is made at the next start. */
  async close(): Promise<void> {
    clearInterval(this.#timer);
    this.#stopping.abort();
    await this.#running;
  }

  /** Makes one when it is due. Resolves when it began, or was not due; `settled` waits for its end. */
  async check(): Promise<void> {
    if (this.#running !== undefined) return;
    try {
      const nowMs = this.#now();
      const sinceMs = await this.#sinceMs();
      if (isDue({ nowMs, sinceMs, triedMs: this.#triedMs })) {
        this.#triedMs = nowMs;
        this.#running = this.#run(nowMs).finally(() => {
          this.#running = undefined;
        });
      } else this.#notify(nowMs, sinceMs);
    } catch (error) {
      this.#failed(error);
    }
  }

  async settled(): Promise<void> {
    await this.#running;
  }

  async view(): Promise<BackupsAnswer> {
    const { config, folder } = this.#parts;
    const kept = this.#state === 'on' ? await this.#kept() : [];
    const newest = kept.find(({ isNightly }) => isNightly);
    return {
      state: this.#state,
      folder: this.#state === 'on' ? folder : null,
      keep: config.BACKUPS,
      lastGoodAt: newest ? toInstant(newest.madeAtMs) : null,
      isOld: this.#state === 'on' && isOld(this.#now(), newest?.madeAtMs ?? (await this.#sinceMs())),
      backups: kept.map(({ name, madeAtMs, bytes }) => ({ name, madeAt: toInstant(madeAtMs), bytes })),
      problem: this.#problem,
    };
  }

  async #run(nowMs: number): Promise<void> {
    const { config, folder, log, make = (file) => this.#makeBeside(file) } = this.#parts;
    const file = join(folder, nightlyName(nowMs));
    try {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      await make(file);
      for (const { name } of spare(await this.#kept(), config.BACKUPS)) await rm(join(folder, name), { force: true });
      this.#problem = null;
      log.info({ file }, 'backed up, read back and found whole');
      if (config.BACKUP_COMMAND !== undefined) await this.#bringElsewhere(config.BACKUP_COMMAND, file);
    } catch (error) {
      if (!this.#stopping.signal.aborted) this.#failed(error);
    }
    this.#notify(this.#now(), await this.#sinceMs().catch(() => nowMs));
  }

  #failed(error: unknown): void {
    this.#problem = error instanceof Error ? error.message : String(error);
    this.#parts.log.error({ err: error }, 'the nightly backup failed; it is tried again in an hour');
  }

  #notify(nowMs: number, sinceMs: number): void {
    const { notices, folder } = this.#parts;
    if (!isOld(nowMs, sinceMs)) {
      notices.clear('backup');
      return;
    }
    const reason = this.#problem;
    notices.raise({
      kind: 'backup',
      severity: 'warning',
      sinceMs: nowMs,
      seen: message('notice.system.backup', {
        dayCount: Math.floor((nowMs - sinceMs) / msPerDay),
        isReasonKnown: reason !== null,
        reasonText: reason ?? '',
      }),
      todo: message('notice.system.backup.todo', { folderText: folder }),
    });
  }

  /** Since when nothing was saved: the newest good one, or the beginning of what is kept. */
  async #sinceMs(): Promise<number> {
    const [newest] = (await this.#kept()).filter(({ isNightly }) => isNightly);
    if (newest) return newest.madeAtMs;
    const { DATA_DIR, JOURNAL_URL } = this.#parts.config;
    const { birthtimeMs } = await stat(join(DATA_DIR, JOURNAL_URL === undefined ? 'journal.db' : 'readings.db'));
    return birthtimeMs;
  }

  async #kept(): Promise<Kept[]> {
    const { folder } = this.#parts;
    const names = await readdir(folder).catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return [];
      throw error;
    });
    const sized = names.map(async (name) => ({
      name,
      bytes: (await stat(join(folder, name)).catch(() => null))?.size,
    }));
    return keptOf(await Promise.all(sized));
  }

  #makeBeside(file: string): Promise<void> {
    const program = fileURLToPath(new URL('./backup.js', import.meta.url));
    return this.#process(process.execPath, [program, file, '--from', this.#parts.config.DATA_DIR], {});
  }

  #bringElsewhere(command: string, file: string): Promise<void> {
    return this.#process('/bin/sh', ['-c', command], { BRANHEARTH_BACKUP_FILE: file });
  }

  async #process(program: string, given: string[], more: Record<string, string>): Promise<void> {
    const child = spawn(program, given, {
      env: { ...process.env, ...more },
      stdio: ['ignore', 'ignore', 'pipe'],
      signal: this.#stopping.signal,
    });
    if (child.pid !== undefined) setPriority(child.pid, lowestPriority);
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => {
      said = (said + chunk.toString()).slice(-2_000);
    });
    await new Promise<void>((resolve, reject) => {
      child.once('error', reject);
      child.once('close', (code) => {
        if (code === 0) resolve();
        else reject(new Error(said.trim().split('\n').at(-1) || `${program} ended with ${code}`));
      });
    });
  }

  #now(): number {
    return (this.#parts.nowMs ?? Date.now)();
  }
}
