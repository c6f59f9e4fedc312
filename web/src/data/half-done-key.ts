/** Where `half-done.ts` keeps its things, apart from it: whoever signs out on the first page needs no more than this. */
export const halfDoneKey = 'branhearth.half-done';

/** Everything, whoever wrote it. */
export function forgetAllHalfDone(): void {
  try {
    localStorage.removeItem(halfDoneKey);
  } catch {
    // Nothing was kept, then.
  }
}
