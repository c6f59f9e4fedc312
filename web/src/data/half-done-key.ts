import { forget } from './remembered.ts';

/** Where `half-done.ts` keeps its things, apart from it: whoever signs out on the first page needs no more than this. */
export const halfDoneKey = 'branhearth.half-done';

/** Everything, whoever wrote it. */
export const forgetAllHalfDone = (): void => forget(halfDoneKey);
