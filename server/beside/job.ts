/**
 * A sum that would hold everybody else up: it runs beside the main thread, within a time, and gives its answer in pieces.
 */
import type { Message } from '../../shared/messages/message.ts';

export interface Job<Question, Piece> {
  /** The name under which the thread finds it. */
  readonly name: string;
  readonly load: () => Promise<{ run(question: Question): AsyncIterable<Piece> }>;
  /** What of a question is handed to the thread instead of copied; the caller has it no more. */
  readonly handsOver?: (question: Question) => Uint8Array;
  /** The longest that one piece may take [ms of the machine]. */
  readonly longestMs: number;
  /** For the person, when it takes longer: what to do instead. */
  readonly tooLong: Message;
  /** Errors that are an answer, and not a fault of ours; each is made again from what it says. */
  readonly errors?: Readonly<Record<string, new (said: Message) => Error>>;
}

export interface Beside {
  /**
   * @param signal Ends the work when nobody waits for it any more.
   * @throws {Refusal} 503 when a piece takes longer than the job may.
   */
  run<Question, Piece>(job: Job<Question, Piece>, question: Question, signal?: AbortSignal): AsyncIterable<Piece>;
}

/** Of a job that answers once. */
export async function oneAnswer<Piece>(pieces: AsyncIterable<Piece>): Promise<Piece> {
  for await (const piece of pieces) return piece;
  throw new Error('a job ended without its answer');
}
