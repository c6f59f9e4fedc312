/**
 * Code in a file of its own, which the first page does without. What has come is kept, so that going back finds the page
 * as high as it was; what failed is tried again by whoever wants it next.
 */
import { useEffect, useState } from 'preact/hooks';

interface Soon<Loaded> {
  readonly loaded?: Loaded;
  readonly error?: unknown;
}

/** @returns A hook that loads it once it is wanted, and gives it from then on. */
export function loadSoon<Loaded>(load: () => Promise<Loaded>) {
  let kept: Soon<Loaded> = {};
  let coming: Promise<Loaded> | undefined;
  const loadOnce = () => {
    coming ??= load().finally(() => {
      coming = undefined;
    });
    return coming;
  };
  return (isWanted = true): Soon<Loaded> => {
    const [soon, setSoon] = useState(kept);
    const isHere = soon.loaded !== undefined;
    useEffect(() => {
      if (!isWanted || isHere) return;
      let isGone = false;
      const show = (now: Soon<Loaded>) => {
        if (!isGone) setSoon(now);
      };
      loadOnce().then(
        (loaded) => {
          kept = { loaded };
          show(kept);
        },
        (error: unknown) => show({ error }),
      );
      return () => {
        isGone = true;
      };
    }, [isWanted, isHere]);
    return soon;
  };
}
