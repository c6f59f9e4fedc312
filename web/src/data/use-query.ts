/** An answer of the server that one page needs, fetched, kept, and fetched again. */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';

export interface Answer<T> {
  readonly value: T | undefined;
  readonly error: unknown;
  /** Fetches again; what was shown stays until the new answer is here. */
  refresh(): Promise<void>;
}

/** @param key changes when something else is asked for; what was there then goes. */
export function useQuery<T>(key: string, fetchIt: () => Promise<T>): Answer<T> {
  const [state, setState] = useState<{ key: string; value?: T; error?: unknown }>({ key });
  const latest = useRef({ key, fetchIt });
  latest.current = { key, fetchIt };

  const refresh = useCallback(async () => {
    const asked = latest.current;
    try {
      const value = await asked.fetchIt();
      if (asked.key === latest.current.key) setState({ key: asked.key, value });
    } catch (error) {
      if (asked.key === latest.current.key)
        setState((shown) => ({ ...(shown.key === asked.key ? shown : {}), key: asked.key, error }));
    }
  }, []);

  useEffect(() => {
    void refresh();
  }, [key]);

  const shown = state.key === key ? state : { key };
  return { value: shown.value, error: shown.error, refresh };
}

/** The same, asked for again and again while it is looked at. */
export function useQueryEvery<T>(key: string, fetchIt: () => Promise<T>, everyMs: number): Answer<T> {
  const answer = useQuery(key, fetchIt);
  const { refresh } = answer;
  useEffect(() => {
    const timer = setInterval(() => void refresh(), everyMs);
    return () => clearInterval(timer);
  }, []);
  return answer;
}

/** Calls `act` when `signal` changes, at once and then at most every `everyMs`. */
export function useThrottled(signal: unknown, everyMs: number, act: () => void): void {
  const last = useRef(0);
  const first = useRef(true);
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    if (first.current) {
      first.current = false;
      return;
    }
    const wait = Math.max(0, last.current + everyMs - performance.now());
    const timer = setTimeout(() => {
      last.current = performance.now();
      latest.current();
    }, wait);
    return () => clearTimeout(timer);
  }, [signal]);
}
