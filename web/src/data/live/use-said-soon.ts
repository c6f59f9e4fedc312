/**
 * The sentences of the first page: as the server worded them until the texts are here, which are loaded once that page stands, so that a
 * phone with a slow line reads how its piles are before it has what it needs to reword it.
 */
import { loadSoon } from '../../ui/load-soon.ts';
import { type Said, useSaid } from './use-say.ts';

const useTexts = loadSoon(() => import('../../ui/format/render-pile.ts'));

/** @returns As `useSaid` of everything that a pile says. */
export function useSaidSoon(siteId?: string): Said {
  return useSaid(useTexts().loaded?.renderPile, siteId);
}
