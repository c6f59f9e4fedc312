import type { FastifyBaseLogger } from 'fastify';
import { StoreError } from '../../shared/errors.ts';
import type { Journal, PileCommandRecord } from '../../shared/store/journal.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { ForgetProbes } from '../services/probes/forget-probes.ts';
import type { ViewWriter } from './view-writer.ts';

export interface PileCommandParts {
  readonly journal: Pick<Journal, 'commands'>;
  readonly watch: Pick<PilePort, 'reload' | 'closeAlarms' | 'handleAlarm'>;
  readonly views: Pick<ViewWriter, 'flush'>;
  readonly forgetting: Pick<ForgetProbes, 'forgetHere'>;
  /** Introduces the piles of a site to hubs anew. */
  introduce(site: string): void;
  readonly log: FastifyBaseLogger;
  /** Sites whose piles are watched here just now. */
  readySites(): readonly string[];
  /** Whether the journal is away, which is said already. */
  isAway(): boolean;
}

/** Does what other processes ask of the piles that are watched here, in the order in which it was asked. */
export class PileCommands {
  readonly #parts: PileCommandParts;
  #doing: Promise<void> = Promise.resolve();
  #closed = false;

  constructor(parts: PileCommandParts) {
    this.#parts = parts;
  }

  /** Something may wait. */
  kick(): void {
    this.#doing = this.#doing
      .then(() => this.#doAll())
      .catch((error) => {
        if (this.#parts.isAway()) return;
        this.#parts.log.warn({ err: error }, 'what others ask could not be done; it is tried again');
      });
  }

  /** Begins no further one. */
  stop(): void {
    this.#closed = true;
  }

  /** Until the one under way has ended. */
  async settled(): Promise<void> {
    await this.#doing;
  }

  async #doAll(): Promise<void> {
    const { journal, readySites, log } = this.#parts;
    for (const command of await journal.commands.waiting(readySites())) {
      if (this.#closed) return;
      // One that cannot be done must not hold up those after it: whoever asked hears that it was not.
      const done = await this.#do(command).catch((error) => {
        if (error instanceof StoreError) throw error;
        log.error({ err: error, command: command.id }, 'what was asked could not be done');
        return false;
      });
      await journal.commands.answer(command.id, done);
    }
  }

  async #do({ pileId, site, command }: PileCommandRecord): Promise<boolean> {
    const { watch, views, forgetting, log } = this.#parts;
    if (!command) {
      log.error({ pileId }, 'what was asked cannot be read: it is damaged, or another version asks');
      return false;
    }
    let done = true;
    if (command.kind === 'forget') {
      await forgetting.forgetHere(command.probes);
      return true;
    }
    if (command.kind === 'introduce') {
      this.#parts.introduce(site);
      return true;
    }
    if (command.kind === 'reload') done = (await watch.reload(pileId)) !== undefined;
    else if (command.kind === 'close-alarms') await watch.closeAlarms(pileId);
    else done = await watch.handleAlarm(command.alarmId, command.handling);
    await views.flush(pileId);
    return done;
  }
}
