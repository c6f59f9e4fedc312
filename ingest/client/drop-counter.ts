/**
 * How many messages a broker has thrown away since we look.
 *
 * Mosquitto counts, since its own start, what it threw away because a client's queue was full.
 */
export const droppedTopic = '$SYS/broker/publish/messages/dropped';

export interface DropCounter {
  /** What the broker says on `droppedTopic`. */
  saw(text: string): void;
  /** Since the first value seen: what was lost before is not ours to warn of. */
  count(): number;
}

export function createDropCounter(): DropCounter {
  let last: number | undefined;
  let since = 0;
  return {
    saw(text) {
      const value = Number(text);
      if (!Number.isFinite(value)) return;
      // A smaller value means that the broker was started again.
      if (last !== undefined) since += value >= last ? value - last : value;
      last = value;
    },
    count: () => since,
  };
}
