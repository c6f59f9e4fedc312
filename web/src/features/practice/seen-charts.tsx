/**
 * The charts of the run so far, drawn anew only while they are on the screen, so that a phone stays smooth while time
 * runs.
 */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { loadSoon } from '../../ui/load-soon.ts';
import { markWords } from './act-words.ts';
import type { Frame } from './practice-session.ts';
import { usePracticeWords } from './use-practice-words.ts';
import '../pile/history.css';

/** The chart code comes in a file of its own. */
const usePileCharts = loadSoon(() => import('../../charts/pile-charts.tsx'));

export function SeenCharts({ frame }: { readonly frame: Frame }) {
  const words = usePracticeWords();
  const { loaded } = usePileCharts();
  const place = useRef<HTMLDivElement>(null);
  const [isSeen, setIsSeen] = useState(false);
  const drawnFrame = useRef(frame);
  if (isSeen) drawnFrame.current = frame;
  const shown = drawnFrame.current;

  useEffect(() => {
    if (!place.current) return;
    const watch = new IntersectionObserver(([entry]) => setIsSeen(entry?.isIntersecting ?? true), {
      rootMargin: '200px',
    });
    watch.observe(place.current);
    return () => watch.disconnect();
  }, []);

  const charts = useMemo(() => {
    const acts = shown.pile.acts.map((act) => ({ ...act, kind: markWords(act.kind, words) }));
    return loaded && <loaded.default pile={{ ...shown.pile, acts }} series={shown.series} />;
  }, [loaded, shown]);
  return (
    <div ref={place} class="seen-charts">
      {charts ?? <p class="quiet chart-wait">{words.text('page-practice.drawing')}</p>}
    </div>
  );
}
