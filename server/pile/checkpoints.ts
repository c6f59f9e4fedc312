/** The places that a pile's judge can go back to when a late reading comes, in memory. */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { judgeStateSchema } from '../../core/estimate/state.ts';
import type { JudgeState } from '../../core/session/judge.ts';

const everyMs = 2 * 3_600_000;
const most = 3;
/** So far back a late reading sends the judge; what is later still is read from the start of the batch. */
export const checkpointReachMs = most * everyMs;

interface Packed {
  readonly throughMs: number;
  /** Packed: most piles never go back, but every one keeps a few. */
  readonly state: Uint8Array;
}

export interface Checkpoint {
  /** Everything up to here was judged. */
  readonly throughMs: number;
  readonly state: JudgeState;
}

export class Checkpoints {
  #kept: Packed[] = [];

  clear(): void {
    this.#kept = [];
  }

  /** Keeps a place every two hours, and the newest three. @param nextMs The time of what is judged next. */
  offer({ state, throughMs }: Checkpoint, nextMs: number): void {
    const last = this.#kept.at(-1);
    if (last && nextMs - last.throughMs < everyMs) return;
    this.#kept.push({ throughMs, state: packed(state) });
    if (this.#kept.length > most) this.#kept.shift();
  }

  /** The newest place before a time; those after it are forgotten. */
  backTo(atMs: number): Checkpoint | undefined {
    this.#kept = this.#kept.filter(({ throughMs }) => throughMs < atMs);
    const newest = this.#kept.at(-1);
    return newest && { throughMs: newest.throughMs, state: unpacked(newest.state) };
  }
}

const quickly = { level: 1 } as const;
/** Copied, for zlib's answer is the beginning of 16 KB that it would keep from being freed. */
const packed = (state: JudgeState): Uint8Array => new Uint8Array(deflateRawSync(JSON.stringify(state), quickly));
const unpacked = (state: Uint8Array): JudgeState =>
  judgeStateSchema.parse(JSON.parse(inflateRawSync(state).toString()));
