/**
 * The sentences of the first page: as the server worded them until the texts are here, which are loaded once that page stands, so that a
 * phone with a slow line reads how its piles are before it has what it needs to reword it.
 */
import { useEffect, useState } from 'preact/hooks';
import type { Render } from '../../../../shared/messages/renderer.ts';
import { type Said, useSaid } from './use-say.ts';

let loaded: Render | undefined;

const load = async (): Promise<Render> => {
  loaded ??= (await import('../../ui/format/render-pile.ts')).renderPile;
  return loaded;
};

/** @returns As `useSaid` of everything that a pile says. */
export function useSaidSoon(siteId?: string): Said {
  const [render, setRender] = useState<Render | undefined>(() => loaded);
  useEffect(() => {
    if (render === undefined) void load().then((ready) => setRender(() => ready));
  }, [render]);
  return useSaid(render, siteId);
}
