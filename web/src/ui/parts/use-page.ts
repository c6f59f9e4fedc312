/** Names the page, and after a change of page takes keyboard and screen reader to its heading. */
import { useEffect, useRef } from 'preact/hooks';
import { scrollToPlace } from './scroll-memory.ts';

/** The address whose page was shown last; the first page after loading leaves the focus where the browser puts it. */
let shownPath: string | undefined;

export function usePage(title: string) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = title === '' ? 'Branhearth' : `${title} · Branhearth`;
  }, [title]);
  useEffect(() => {
    const isMove = shownPath !== undefined && shownPath !== location.pathname;
    shownPath = location.pathname;
    if (!isMove) return undefined;
    heading.current?.focus({ preventScroll: true });
    return scrollToPlace();
  }, []);
  return heading;
}
