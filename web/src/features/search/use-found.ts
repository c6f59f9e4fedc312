/** What is found of what is typed: asked once it rests, one question at a time, the newest last. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { SearchAnswer } from '../../../../shared/contracts/search.ts';
import { typedWords } from '../../../../shared/find-words.ts';
import { searchFor } from './search-api.ts';

/** Typed letters are gathered for so long. */
const gatherMs = 150;

export interface Found {
  /** Of which words; what was found before stays until there is something new. */
  readonly words: readonly string[];
  readonly answer: SearchAnswer | null;
  readonly error: unknown;
  readonly isLooking: boolean;
}

const nothing: Found = { words: [], answer: null, error: undefined, isLooking: false };

export function useFound(typed: string): Found {
  const [found, setFound] = useState<Found>(nothing);
  const wanted = useRef(typed);
  const isAsking = useRef(false);
  const isGone = useRef(false);
  wanted.current = typed;

  useEffect(() => {
    if (typedWords(typed).length === 0) {
      setFound(nothing);
      return;
    }
    setFound((before) => ({ ...before, isLooking: true }));
    const timer = setTimeout(() => void askForWanted(), gatherMs);
    return () => clearTimeout(timer);
  }, [typed]);

  useEffect(
    () => () => {
      isGone.current = true;
    },
    [],
  );

  async function askForWanted(): Promise<void> {
    if (isAsking.current) return;
    isAsking.current = true;
    const asked = wanted.current;
    const words = typedWords(asked);
    const next = await searchFor(asked).then(
      (answer) => ({ words, answer, error: undefined }),
      (error: unknown) => ({ words, answer: null, error }),
    );
    isAsking.current = false;
    if (isGone.current) return;
    const isNewest = asked === wanted.current;
    if (typedWords(wanted.current).length > 0) setFound({ ...next, isLooking: !isNewest });
    if (!isNewest) void askForWanted();
  }

  return found;
}
