/** Whether anything came from a probe yet, and what kept it out, asked again while somebody waits for it. */
import { useEffect } from 'preact/hooks';
import { type FirstMessageAnswer, firstMessageAnswerSchema } from '../../../shared/contracts/first-message.ts';
import { ask } from './client.ts';
import { type Answer, useQuery } from './use-query.ts';

const getFirstMessage = () => ask(firstMessageAnswerSchema, '/api/ingest/first-message');

const refetchEveryMs = 2_000;

export function useFirstMessage(): Answer<FirstMessageAnswer> {
  const answer = useQuery('first-message', getFirstMessage);
  const { refresh } = answer;
  useEffect(() => {
    const timer = setInterval(() => void refresh(), refetchEveryMs);
    return () => clearInterval(timer);
  }, []);
  return answer;
}
