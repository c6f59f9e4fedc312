/** Work that many things ask for, done once for all of them. */
export interface Coalesced {
  ask(): void;
  /** Waits for what is under way, and lets nothing begin any more. */
  close(): Promise<void>;
}

/** @param failed Called when a run failed; it is asked for again by then. */
export function coalesced(work: () => Promise<void>, everyMs: number, failed: (error: unknown) => void): Coalesced {
  let wanted = false;
  let running: Promise<void> | undefined;
  let closed = false;

  async function run(): Promise<void> {
    while (wanted && !closed) {
      wanted = false;
      try {
        await work();
      } catch (error) {
        wanted = true;
        failed(error);
      }
      await new Promise((resolve) => setTimeout(resolve, everyMs).unref());
    }
    running = undefined;
  }

  return {
    ask() {
      wanted = true;
      running ??= run();
    },
    async close() {
      closed = true;
      await running;
    },
  };
}
