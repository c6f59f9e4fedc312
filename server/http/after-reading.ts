/**
 * Calls what it was given once its time is up and whatever came meanwhile has been read: nobody pays for the process having been busy.
 * All wait equally long, so that they end in the order in which they came, by one timer.
 */
export function afterReading(waitMs: number): (then: () => void) => void {
  const waiting: { readonly dueMs: number; readonly then: () => void }[] = [];
  const wake = (inMs: number) => void setTimeout(() => setImmediate(callDue), inMs).unref();

  function callDue(): void {
    const nowMs = performance.now();
    const next = waiting.findIndex(({ dueMs }) => dueMs > nowMs);
    for (const { then } of waiting.splice(0, next < 0 ? waiting.length : next)) then();
    const [first] = waiting;
    if (first) wake(first.dueMs - nowMs);
  }

  return (then) => {
    waiting.push({ dueMs: performance.now() + waitMs, then });
    if (waiting.length === 1) wake(waitMs);
  };
}
