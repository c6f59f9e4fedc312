/** Hundreds of lines a few at a time, so that what is pressed or typed meanwhile is answered at once. */
import { useEffect, useState } from 'preact/hooks';

/** More than a screen holds. */
const atFirst = 14;
const atATime = 6;

/** @param view Begins afresh with another one. @returns How many of them are drawn now. */
export function useMoreSoon(view: unknown, count: number): number {
  const [drawn, setDrawn] = useState({ view, count: atFirst });
  const now = drawn.view === view ? drawn.count : atFirst;
  useEffect(() => {
    if (now >= count) return;
    const timer = setTimeout(() => setDrawn({ view, count: now + atATime }));
    return () => clearTimeout(timer);
  }, [view, now, count]);
  return now;
}
