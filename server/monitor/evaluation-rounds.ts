/**
 * Evaluates piles, round after round. An evaluation that takes long is left to end by itself while the others get theirs;
 * the same pile is never evaluated twice at a time.
 */
import { setImmediate as turnOfOthers } from 'node:timers/promises';
import { waitAtMost } from './wait-at-most.ts';

/** Between two rounds: news is judged within this [machine time]. */
const pauseMs = 200;
/** Time a round may take before readings and pages get their turn: late ones may send every pile back at once [machine time]. */
const roundTurnMs = 20;
/** Evaluations that are waited for at the same time. */
const waitedFor = 8;
/** An evaluation that has not ended by then is not waited for any more [machine time]. */
const patienceMs = 100;

export interface EvaluationRoundsParts<Pile> {
  piles(): Iterable<Pile>;
  /** Called before each round. */
  beforeRound(): void;
  isDue(pile: Pile): boolean;
  /** Never rejects. */
  evaluate(pile: Pile): Promise<void>;
}

export class EvaluationRounds<Pile> {
  readonly #parts: EvaluationRoundsParts<Pile>;
  /** Evaluations under way, and when each began [ms of the machine]. */
  readonly #underWay = new Map<Pile, number>();
  #timer: NodeJS.Timeout | undefined;
  #endedAtMs = Date.now();
  #closed = false;

  constructor(parts: EvaluationRoundsParts<Pile>) {
    this.#parts = parts;
  }

  start(): void {
    this.#next();
  }

  /** What is under way ends by itself; nothing more begins. */
  close(): void {
    this.#closed = true;
    clearTimeout(this.#timer);
  }

  /** Since every pile had its turn; long when judging stands still [ms of the machine]. */
  sinceRoundMs(): number {
    return Date.now() - this.#endedAtMs;
  }

  /** Since when an evaluation of this pile has been under way [ms of the machine]. */
  underWaySince(pile: Pile): number | undefined {
    return this.#underWay.get(pile);
  }

  #next(): void {
    if (this.#closed) return;
    this.#endedAtMs = Date.now();
    this.#timer = setTimeout(() => void this.#round().finally(() => this.#next()), pauseMs);
  }

  async #round(): Promise<void> {
    const { piles, beforeRound, isDue, evaluate } = this.#parts;
    beforeRound();
    const waited = new Set<Promise<void>>();
    let turnAtMs = performance.now();
    for (const pile of piles()) {
      if (performance.now() - turnAtMs >= roundTurnMs) {
        await turnOfOthers();
        turnAtMs = performance.now();
      }
      if (this.#closed) return;
      if (this.#underWay.has(pile) || !isDue(pile)) continue;
      this.#underWay.set(pile, Date.now());
      const running: Promise<void> = evaluate(pile).finally(() => {
        this.#underWay.delete(pile);
        waited.delete(running);
      });
      waited.add(running);
      // Most end within this turn; one that waits for a store lets the next begin.
      await Promise.race([running, turnOfOthers()]);
      if (waited.size < waitedFor) continue;
      await waitAtMost(Promise.race(waited), patienceMs);
      if (waited.size >= waitedFor) waited.clear();
    }
    await waitAtMost(Promise.all(waited), patienceMs);
  }
}
