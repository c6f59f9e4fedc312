/** Where messages go. */
import type { FarmMessage } from '../farm/play-farm.ts';

export interface Sink {
  /** Resolves once the message is on its way and another may follow. */
  send(message: FarmMessage): Promise<void>;
  /** Waits until everything has arrived, then closes. */
  close(): Promise<void>;
}
