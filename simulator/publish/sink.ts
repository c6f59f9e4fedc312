/**
 * simulator/publish/sink.ts: where messages go.
 *
 * Takes:  messages one by one, in order.
 * Gives:  a promise per message that settles when the next may come: a full pipe makes the sender wait.
 */
import type { FarmMessage } from '../farm/play-farm.ts';

export interface Sink {
  /** Resolves once the message is on its way and another may follow. */
  send(message: FarmMessage): Promise<void>;
  /** Waits until everything has arrived, then closes. */
  close(): Promise<void>;
}
