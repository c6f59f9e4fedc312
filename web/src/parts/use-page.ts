/**
 * web/parts/use-page.ts: names the page, and after a change of page takes keyboard and screen reader to its heading.
 */
import { useEffect, useRef } from 'preact/hooks';

let pagesShown = 0;

export function usePage(title: string) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = title === '' ? 'Branhearth' : `${title} · Branhearth`;
  }, [title]);
  useEffect(() => {
    // The first page after loading leaves the focus where the browser puts it.
    if (pagesShown++ > 0) {
      heading.current?.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
  }, []);
  return heading;
}
