/**
 * The charts of the run so far, drawn anew only while they are on the screen, so that a phone stays smooth while time
 * runs.
 */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Frame } from './practice-session.ts';
import '../pile/history.css';

type Charts = typeof import('../../charts/pile-charts.tsx').default;

export function SeenCharts({ frame }: { readonly frame: Frame }) {
  const [loaded, setLoaded] = useState<{ Charts: Charts }>();
  const place = useRef<HTMLDivElement>(null);
  const [isSeen, setIsSeen] = useState(false);
  const drawnFrame = useRef(frame);
  if (isSeen) drawnFrame.current = frame;
  const shown = drawnFrame.current;

  useEffect(() => {
    // The chart code comes in a file of its own.
    void import('../../charts/pile-charts.tsx').then((module) => setLoaded({ Charts: module.default }));
    if (!place.current) return;
    const watch = new IntersectionObserver(([entry]) => setIsSeen(entry?.isIntersecting ?? true), {
      rootMargin: '200px',
    });
    watch.observe(place.current);
    return () => watch.disconnect();
  }, []);

  const charts = useMemo(() => loaded && <loaded.Charts pile={shown.pile} series={shown.series} />, [loaded, shown]);
  return (
    <div ref={place} class="seen-charts">
      {charts ?? <p class="quiet chart-wait">Drawing…</p>}
    </div>
  );
}
