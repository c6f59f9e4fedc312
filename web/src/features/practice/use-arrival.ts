/**
 * Takes keyboard, screen reader and eye to the heading when one part of a run gives way to the next without a change of
 * address.
 */
import { useEffect } from 'preact/hooks';
import { usePage } from '../../ui/parts/use-page.ts';

export function useArrival(title: string) {
  const heading = usePage(title);
  useEffect(() => {
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, []);
  return heading;
}
