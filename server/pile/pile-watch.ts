/**
 * One pile being watched: readings in, judgement and alarms out. It never judges a reading before it is committed, or
 * loses a late one: it goes back and reads again.
 */
import type { ExpectedBand } from '../../core/expect/band.ts';
import type { AirAhead } from '../../core/profiles/air-reading.ts';
import type { JudgeReading, PileSetup } from '../../core/profiles/pile-setup.ts';
import type { AlarmChange, AlarmHandling, AlarmRegistry } from '../../core/session/alarm-registry.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import { PileSession } from '../../core/session/pile-session.ts';
import type { PositionRhythm } from '../../core/session/rhythms.ts';
import { StoreError } from '../../shared/errors.ts';
import type { ActRecord, BatchRecord, CheckpointRecord, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import { Checkpoints, checkpointReachMs } from './checkpoints.ts';
import type { HeardOfPeople } from './heard-by-judge.ts';
import { type KeptJudgement, keptJudgement, readKept } from './kept-judgement.ts';
import { setupOf } from './origin.ts';

/** Probes of a pile do not report at the same instant; what is late by no more than this is taken as just now. */
const jitterMs = 2 * 60_000;
/** A probe that spoke this shortly before the batch was laid tells what the pile was like as it was laid. */
const beforeLaidMs = 3_600_000;
/** Clocks of probes run ahead a little. */
const aheadMs = 600_000;

/** Reads the pile's committed readings in [fromMs, toMs), oldest first, page by page. */
export type ReadBack = (fromMs: number, toMs: number) => AsyncIterable<readonly JudgeReading[]>;

export interface PileWatchParts {
  readonly pile: PileRecord;
  readonly batch: BatchRecord | null;
  readonly acts: readonly ActRecord[];
  /** What people noted by hand, and their word that it is ready. */
  readonly heard?: HeardOfPeople;
  /** What it is judged by where that is not its own laying alone: it was split off another (origin.ts). */
  readonly setup?: PileSetup;
  readonly registry: AlarmRegistry;
  readonly readBack: ReadBack;
}

export class PileWatch {
  readonly pile: PileRecord;
  readonly batch: BatchRecord | null;
  readonly registry: AlarmRegistry;
  readonly #readBack: ReadBack;
  /** Null where no batch lies. */
  readonly #session: PileSession | null;
  #lookedMs = 0;
  /** What was said last, while the judge reads again what it had read. */
  #saidBefore: Assessment | null = null;
  #pending: JudgeReading[] = [];
  #lateFromMs = Number.POSITIVE_INFINITY;
  readonly #checkpoints = new Checkpoints();
  /** Whether anything happened since the place in the journal was kept. */
  #unkept = false;

  constructor(parts: PileWatchParts) {
    this.pile = parts.pile;
    this.batch = parts.batch;
    this.registry = parts.registry;
    this.#readBack = parts.readBack;
    const setup = parts.setup ?? (parts.batch && setupOf(parts.batch, parts.acts, parts.heard));
    this.#session = setup && new PileSession(setup, parts.registry);
  }

  get setup(): PileSetup | null {
    return this.#session?.setup ?? null;
  }

  get band(): ExpectedBand | null {
    return this.#session?.band ?? null;
  }

  set band(band: ExpectedBand | null) {
    if (this.#session) this.#session.band = band;
  }

  get hasNews(): boolean {
    return this.#pending.length > 0 || this.#lateFromMs < Number.POSITIVE_INFINITY;
  }

  /**
   * What there was to say at the last look; null before the first. Worked out when asked for: kept of every pile it would
   * be most of what a small server has in memory, as each look leaves one behind for the collector.
   */
  get assessment(): Assessment | null {
    if (this.#saidBefore || this.#lookedMs === 0 || !this.#session) return this.#saidBefore;
    return this.#session.assessment(this.#lookedMs);
  }

  /** When each place was last heard, and how often it speaks. */
  rhythms(): PositionRhythm[] {
    return this.#session?.rhythms() ?? [];
  }

  /** Takes one committed reading; judged at the next look. Hot. */
  receive(reading: JudgeReading): void {
    if (!this.batch || !this.#session || reading.atMs < this.batch.startedAtMs) return;
    // What only stands by is not worth going back for.
    const isLate = reading.standby === undefined && reading.atMs < this.#session.throughMs - jitterMs;
    if (isLate) this.#lateFromMs = Math.min(this.#lateFromMs, reading.atMs);
    else this.#pending.push(reading);
  }

  /**
   * Goes on from the journal's place, or from the batch's start, through everything committed since. It may be tried
   * again when it failed. What was kept is a cache: where it does not do, the readings are judged from the start.
   */
  async resume(record: CheckpointRecord | undefined, nowMs: number): Promise<void> {
    const session = this.#session;
    const { batch } = this;
    if (!session || !batch) return;
    const { setup } = session;
    const usable = record && record.batchId === batch.id && record.throughMs <= nowMs + aheadMs ? record : undefined;
    const kept = usable && readKept(usable.state);
    if (usable && kept) {
      try {
        await this.#resumeFrom(session, kept, usable.throughMs, nowMs);
        return;
      } catch (error) {
        if (error instanceof StoreError) throw error;
      }
    }
    session.startAnew();
    this.#checkpoints.clear();
    await this.#readOpening(session);
    await this.#readThrough(session, setup.startedAtMs, nowMs);
  }

  async #resumeFrom(session: PileSession, kept: KeptJudgement, throughMs: number, nowMs: number): Promise<void> {
    session.goOnFrom(kept.judge, throughMs);
    this.#checkpoints.clear();
    await this.#readThrough(session, throughMs + 1, nowMs);
    session.assessment(Math.max(nowMs, throughMs)); // what it cannot judge by is not gone on with
    this.registry.restoreWaiting(kept.waiting);
  }

  /**
   * Steps what came in, assesses, and steps the alarms.
   * @param listeningForMs How long the server has been listening: right after a start every probe seems silent.
   * @returns What the journal must keep.
   */
  async evaluate(
    nowMs: number,
    keepPlace: boolean,
    listeningForMs: number,
  ): Promise<AlarmChange & Pick<WatchChange, 'watch'>> {
    // Alarms never step back, and a batch is never looked at before it was laid.
    const atMs = Math.max(nowMs, this.#lookedMs, this.batch?.startedAtMs ?? 0);
    const session = this.#session;
    if (!session) return { alarms: [], steps: [], watch: null };
    if (this.#lateFromMs < Number.POSITIVE_INFINITY) await this.#goBack(session, atMs);
    this.#saidBefore = null;
    this.#lookedMs = atMs;
    this.#stepPending(session);
    const change = session.evaluate(atMs, listeningForMs);
    const keep = change.alarms.length > 0 || (keepPlace && this.#unkept);
    return { ...change, watch: keep ? this.#checkpoint() : null };
  }

  /** The air of its site is foretold anew. */
  airAheadIssued(airAhead: AirAhead): void {
    this.#session?.learn({ ...this.#session.setup, airAhead });
  }

  /** Whether an alarm is about to be raised, once its cause has stood for long enough. */
  get isAlarmWaiting(): boolean {
    return this.registry.isWaiting();
  }

  /** Whether the air of the last hour was other than the expected curve took it to be. */
  get weatherDeparts(): boolean {
    return this.#session?.weatherDeparts ?? false;
  }

  /** What the expected curve takes the air as where nobody measures it [°C]. */
  get guessedAirC(): number | undefined {
    return this.#session?.guessedAirC;
  }

  /**
   * The machine's clock was set. Back: what was judged of the time that has yet to come is judged anew as it comes, and
   * holds begin again, so that nothing waits until the old time is reached. Steps that were taken stay taken.
   */
  clockWasSet(nowMs: number): void {
    if (nowMs >= this.#lookedMs) return;
    this.#lookedMs = nowMs;
    this.#lateFromMs = Math.min(this.#lateFromMs, nowMs);
    this.registry.clockWasSet(nowMs);
  }

  /** The place that was handed out is not in the journal: another one is due. */
  placeWasNotKept(): void {
    this.#unkept = true;
  }

  handle(alarmId: string, handling: AlarmHandling, nowMs: number): AlarmChange | undefined {
    return this.registry.handle(alarmId, handling, Math.max(nowMs, this.#lookedMs));
  }

  #stepPending(session: PileSession): void {
    if (this.#pending.length === 0) return;
    const pending = this.#pending;
    this.#pending = [];
    pending.sort((a, b) => a.atMs - b.atMs);
    for (const reading of pending) this.#step(session, reading);
  }

  #step(session: PileSession, reading: JudgeReading, checkpointsFromMs = 0): void {
    const nextMs = Math.max(reading.atMs, session.throughMs);
    if (nextMs >= checkpointsFromMs) this.#checkpoints.offer(session, nextMs);
    session.step(reading);
    this.#unkept = true;
  }

  /** A reading older than what was judged came in: back to before it, and through everything again. */
  async #goBack(session: PileSession, nowMs: number): Promise<void> {
    const lateMs = this.#lateFromMs;
    this.#lateFromMs = Number.POSITIVE_INFINITY;
    this.#saidBefore = this.assessment;
    try {
      await this.#readAgain(session, lateMs, nowMs);
    } catch (error) {
      this.#lateFromMs = Math.min(this.#lateFromMs, lateMs); // half read: the next look begins again
      throw error;
    }
  }

  async #readAgain(session: PileSession, lateMs: number, nowMs: number): Promise<void> {
    const from = this.#checkpoints.backTo(lateMs);
    if (from) session.goOnFrom(from.state, from.throughMs);
    else {
      session.startAnew();
      await this.#readOpening(session);
    }
    await this.#readThrough(session, from ? from.throughMs + 1 : session.setup.startedAtMs, nowMs);
  }

  /** What each probe last said before the batch was laid, taken as said when it was laid. */
  async #readOpening(session: PileSession): Promise<void> {
    const { startedAtMs } = session.setup;
    const newest = new Map<string, JudgeReading>();
    for await (const page of this.#readBack(startedAtMs - beforeLaidMs, startedAtMs)) {
      for (const reading of page)
        newest.set(`${reading.position} ${reading.quantity} ${reading.standby ?? ''}`, reading);
    }
    for (const reading of newest.values()) this.#step(session, { ...reading, atMs: startedAtMs });
  }

  async #readThrough(session: PileSession, fromMs: number, nowMs: number): Promise<void> {
    // Those before would only be pushed out by those to come.
    const checkpointsFromMs = nowMs - checkpointReachMs;
    // Whatever arrives meanwhile is committed, hence read here too: it is not needed again.
    for await (const page of this.#readBack(fromMs, nowMs + aheadMs)) {
      for (const reading of page) this.#step(session, reading, checkpointsFromMs);
    }
    this.#pending = this.#pending.filter((reading) => reading.atMs >= session.throughMs);
  }

  #checkpoint(): CheckpointRecord | null {
    if (!this.batch || !this.#session) return null;
    this.#unkept = false;
    return {
      pileId: this.pile.id,
      batchId: this.batch.id,
      throughMs: this.#session.throughMs,
      state: keptJudgement({ judge: this.#session.state, waiting: this.registry.waiting() }),
    };
  }
}
