/**
 * Heavy work waits in line: so much at once, and between people in turn, so that many pieces of one person hold nobody
 * else up for longer than one piece takes.
 */

import { message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';

export interface WorkLineBounds {
  readonly atOnce: number;
  /** Of one person, the one at work included. */
  readonly mostOfOne: number;
  readonly mostWaiting: number;
}

interface Waiting {
  readonly person: string;
  readonly begin: () => void;
}

export class WorkLine {
  readonly #bounds: WorkLineBounds;
  readonly #held = new Map<string, number>();
  /** When each person's work last began, as a count: whoever has waited longest without any comes first. */
  readonly #begun = new Map<string, number>();
  #waiting: Waiting[] = [];
  #working = 0;
  #count = 0;

  constructor(bounds: WorkLineBounds) {
    this.#bounds = bounds;
  }

  /**
   * Runs the work when its turn has come.
   * @throws {Refusal} 429 when this person has too much in line already, 503 when all together have.
   */
  async run<T>(person: string, work: () => Promise<T>): Promise<T> {
    const { mostOfOne, mostWaiting, atOnce } = this.#bounds;
    const held = this.#held.get(person) ?? 0;
    if (held >= mostOfOne) {
      throw new Refusal(429, message('problem.work.much-of-yours'), {
        retryAfterS: 5,
      });
    }
    if (this.#waiting.length >= mostWaiting) {
      throw new Refusal(503, message('problem.work.busy'), {
        retryAfterS: 10,
      });
    }
    this.#held.set(person, held + 1);
    if (this.#working < atOnce) this.#begin(person);
    else await new Promise<void>((resolve) => this.#waiting.push({ person, begin: resolve }));
    try {
      return await work();
    } finally {
      this.#end(person);
    }
  }

  #begin(person: string): void {
    this.#working += 1;
    this.#begun.set(person, ++this.#count);
  }

  #end(person: string): void {
    this.#working -= 1;
    const held = (this.#held.get(person) ?? 1) - 1;
    if (held > 0) this.#held.set(person, held);
    else {
      this.#held.delete(person);
      this.#begun.delete(person);
    }
    const since = ({ person: one }: Waiting) => this.#begun.get(one) ?? 0;
    const next = this.#waiting.reduce<Waiting | undefined>(
      (first, one) => (first === undefined || since(one) < since(first) ? one : first),
      undefined,
    );
    if (!next) return;
    this.#waiting = this.#waiting.filter((one) => one !== next);
    this.#begin(next.person);
    next.begin();
  }
}
