/**
 * Looks at piles, round after round. A look that takes long is left to end by itself while the others get theirs; the
 * same pile is never looked at twice at a time.
 */
import { setTimeout as pause, setImmediate as turnOfOthers } from 'node:timers/promises';

/** Real time a round may take before readings and pages get their turn: late ones may send every pile back at once. */
const roundTurnMs = 20;
/** Looks that are waited for at the same time. */
const waitedFor = 8;
/** A look that has not ended by then is not waited for any more. */
const patienceMs = 100;

export interface LookRoundsParts<Pile> {
  isDue(pile: Pile): boolean;
  /** Never rejects. */
  look(pile: Pile): Promise<void>;
  isClosed(): boolean;
}

export class LookRounds<Pile> {
  readonly #parts: LookRoundsParts<Pile>;
  /** Looks under way, and when each began [ms of the machine]. */
  readonly #underWay = new Map<Pile, number>();

  constructor(parts: LookRoundsParts<Pile>) {
    this.#parts = parts;
  }

  /** Since when a look at this pile has been under way [ms of the machine]. */
  underWaySince(pile: Pile): number | undefined {
    return this.#underWay.get(pile);
  }

  async round(piles: Iterable<Pile>): Promise<void> {
    const { isDue, look, isClosed } = this.#parts;
    const waited = new Set<Promise<void>>();
    let turnAtMs = performance.now();
    for (const pile of piles) {
      if (performance.now() - turnAtMs >= roundTurnMs) {
        await turnOfOthers();
        turnAtMs = performance.now();
      }
      if (isClosed()) return;
      if (this.#underWay.has(pile) || !isDue(pile)) continue;
      this.#underWay.set(pile, Date.now());
      const looking: Promise<void> = look(pile).finally(() => {
        this.#underWay.delete(pile);
        waited.delete(looking);
      });
      waited.add(looking);
      // Most end within this turn; one that waits for a store lets the next begin.
      await Promise.race([looking, turnOfOthers()]);
      if (waited.size < waitedFor) continue;
      await endOrPatience(Promise.race(waited));
      if (waited.size >= waitedFor) waited.clear();
    }
    await endOrPatience(Promise.all(waited));
  }
}

async function endOrPatience(looks: Promise<unknown>): Promise<void> {
  const patience = new AbortController();
  await Promise.race([looks, pause(patienceMs, undefined, { signal: patience.signal }).catch(() => undefined)]);
  patience.abort();
}
