/**
 * Where entries are handed in: kept once, and the judge hears of those that concern it. It never keeps an entry twice,
 * or changes one that was kept.
 */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { clockAheadMs } from '../../../shared/clock-ahead.ts';
import type { correctionSchema, newEntrySchema, withdrawalSchema } from '../../../shared/contracts/journal.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { EntryRecord, Journal, Kept } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import { type HandParts, isMeasured, keepHandReadings } from '../../pile/hand-readings.ts';
import { isHeard } from '../../pile/heard-by-judge.ts';

type NewEntryRead = z.output<typeof newEntrySchema>;
type CorrectionRead = z.output<typeof correctionSchema>;
type WithdrawalRead = z.output<typeof withdrawalSchema>;

export interface ServiceParts {
  readonly journal: Journal;
  readonly readings: HandParts['readings'];
  readonly clock: Clock;
  /** What the judge hears of a pile has changed. */
  readonly acted: (pileId: string) => Promise<unknown>;
}

export interface HandedIn {
  readonly kept: Kept;
  readonly entryId: string;
}

/** What is wrong with an entry's time; undefined when nothing is. */
export function timeProblem(atMs: number | undefined, nowMs: number): Message | undefined {
  return atMs !== undefined && atMs > nowMs + clockAheadMs ? message('problem.seen-in-future') : undefined;
}

export class JournalService {
  readonly #parts: ServiceParts;

  constructor(parts: ServiceParts) {
    this.#parts = parts;
  }

  /** @throws {ConflictError} when the id says something else, or pile or photos are not there. */
  async add(pileId: string, entry: NewEntryRead): Promise<HandedIn> {
    const { kept, record } = await this.#keep(pileId, entry);
    await this.#bringToReadings([record]); // also one that is known: it may come again because this failed
    if (kept === 'kept') await this.#notifyJudge([record]);
    return { kept, entryId: record.entryId };
  }

  /** Keeps one without telling the judge: for a queue of many, which tells once per pile at its end. */
  async addQuietly(pileId: string, entry: NewEntryRead): Promise<{ kept: Kept; record: EntryRecord }> {
    return this.#keep(pileId, entry);
  }

  /** Tells the judge of every pile that it should hear of. @param known Came again: their readings may not be kept yet. */
  async notifyJudgeOf(records: readonly EntryRecord[], known: readonly EntryRecord[] = []): Promise<void> {
    await this.#bringToReadings([...records, ...known]);
    await this.#notifyJudge(records);
  }

  /** @param standing The newest version. */
  async correct(standing: EntryRecord, correction: CorrectionRead): Promise<HandedIn> {
    const nowMs = this.#parts.clock.nowMs();
    const { id, replaces, reason, at, by, note, photoIds, what } = correction;
    return this.#replace(standing, replaces, {
      ...standing,
      id: id ?? randomId(),
      atMs: at ?? standing.atMs, // a correction that gives no time leaves it
      recordedAtMs: nowMs,
      by: by ?? null,
      note: note || null,
      photoIds,
      what,
      reason: reason || null,
      withdrawn: false,
    });
  }

  async withdraw(standing: EntryRecord, { id, replaces, by, reason }: WithdrawalRead): Promise<HandedIn> {
    return this.#replace(standing, replaces, {
      ...standing,
      id: id ?? randomId(),
      recordedAtMs: this.#parts.clock.nowMs(),
      by: by ?? standing.by,
      reason: reason || null,
      withdrawn: true,
    });
  }

  async #keep(pileId: string, entry: NewEntryRead): Promise<{ kept: Kept; record: EntryRecord }> {
    const nowMs = this.#parts.clock.nowMs();
    const { id = randomId(), at, by, note, photoIds, what } = entry;
    const record: EntryRecord = {
      id,
      entryId: id,
      version: 1,
      pileId,
      atMs: at ?? nowMs,
      recordedAtMs: nowMs,
      by: by ?? null,
      note: note || null,
      photoIds,
      what,
      reason: null,
      withdrawn: false,
    };
    return { kept: await this.#parts.journal.entries.add(record), record };
  }

  async #replace(standing: EntryRecord, replaces: string, next: EntryRecord): Promise<HandedIn> {
    const kept = await this.#parts.journal.entries.correct(next, replaces);
    await this.#bringToReadings([standing, next], true);
    if (kept === 'kept') await this.#notifyJudge([standing, next]);
    return { kept, entryId: next.entryId };
  }

  /** Before anything is answered: what was measured by hand is kept twice, or it comes again. @throws {StoreError} */
  async #bringToReadings(records: readonly EntryRecord[], corrected = false): Promise<void> {
    const measured = records.filter(({ what }) => isMeasured(what));
    for (const pileId of new Set(measured.map((record) => record.pileId))) {
      await keepHandReadings(this.#parts, pileId, corrected);
    }
  }

  async #notifyJudge(records: readonly EntryRecord[]): Promise<void> {
    const heard = records.filter(({ what }) => isHeard(what.kind));
    for (const pileId of new Set(heard.map((record) => record.pileId))) await this.#parts.acted(pileId);
  }
}
