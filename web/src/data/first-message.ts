/** Whether anything came from a probe yet, and what kept it out, asked again while somebody waits for it. */
import { type FirstMessageAnswer, firstMessageAnswerSchema } from '../../../shared/contracts/first-message.ts';
import { ask } from './client.ts';
import { type Answer, useQueryEvery } from './use-query.ts';

const refetchEveryMs = 2_000;

const getFirstMessage = () => ask(firstMessageAnswerSchema, '/api/ingest/first-message');

export const useFirstMessage = (): Answer<FirstMessageAnswer> =>
  useQueryEvery('first-message', getFirstMessage, refetchEveryMs);
