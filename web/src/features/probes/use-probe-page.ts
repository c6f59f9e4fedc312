/** One page of the probes that answer to a question, fetched again as probes speak. */
import { useEffect, useState } from 'preact/hooks';
import type { ProbesAnswer, ProbesQuestion } from '../../../../shared/contracts/probes.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { findProbes } from '../../data/routes.ts';
import { type Answer, useQuery, useThrottled } from '../../data/use-query.ts';

export interface ProbePage extends Answer<ProbesAnswer> {
  readonly offset: number;
  readonly limit: number;
  turnTo(offset: number): void;
}

const fetchEveryMs = 2_000;

export function useProbePage(question: Omit<ProbesQuestion, 'offset' | 'limit'>, limit: number): ProbePage {
  const key = JSON.stringify(question);
  const [place, setPlace] = useState({ key, offset: 0 });
  // What is asked for anew begins at its beginning; back from a search one is where one was.
  const offset = place.key === key ? place.offset : 0;
  const answer = useQuery(`${key} ${offset}`, () => findProbes({ ...question, offset, limit }));
  const news = useInstallation((installation) => installation.probeNews);
  useThrottled(news, fetchEveryMs, () => void answer.refresh());

  // The last page may have emptied meanwhile.
  const { value } = answer;
  useEffect(() => {
    if (value && value.probes.length === 0 && offset > 0) setPlace({ key, offset: Math.max(0, offset - limit) });
  }, [value]);

  return { ...answer, offset, limit, turnTo: (next) => setPlace({ key, offset: Math.max(0, next) }) };
}
