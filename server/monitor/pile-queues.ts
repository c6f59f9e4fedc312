/** Work on one pile is done one after the other; piles do not wait for each other. */
export class PileQueues {
  readonly #last = new Map<string, Promise<unknown>>();

  /** Runs the work when all that was handed in before for this pile has ended, well or not. */
  run<T>(pileId: string, work: () => Promise<T>): Promise<T> {
    const before = this.#last.get(pileId) ?? Promise.resolve();
    const running = before.then(work, work);
    const done = running.catch(() => undefined);
    this.#last.set(pileId, done);
    void done.then(() => {
      if (this.#last.get(pileId) === done) this.#last.delete(pileId);
    });
    return running;
  }
}
