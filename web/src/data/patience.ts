/** How long an answer is waited for: at the edge of a field a line takes what is asked and gives nothing back. */
export interface Patience {
  /** Given when the patience is over, or by whoever asked. */
  readonly signal: AbortSignal;
  isOver(): boolean;
  /** The answer is there. */
  end(): void;
}

/** @param patienceMs Without it there is no end but the one that is given. */
export function startPatience(patienceMs: number | undefined, given: AbortSignal | undefined): Patience {
  const line = new AbortController();
  let isOver = false;
  const giveUp = () => line.abort(given?.reason);
  const runOut = () => {
    isOver = true;
    line.abort();
  };
  if (given?.aborted) giveUp();
  given?.addEventListener('abort', giveUp);
  const timer = patienceMs === undefined ? undefined : setTimeout(runOut, patienceMs);
  return {
    signal: line.signal,
    isOver: () => isOver,
    end() {
      clearTimeout(timer);
      given?.removeEventListener('abort', giveUp);
    },
  };
}
