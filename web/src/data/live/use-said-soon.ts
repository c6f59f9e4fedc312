/**
 * The sentences of the first page: as the server worded them until the texts are here, which are loaded once that page stands, so that a
 * phone with a slow line reads how its piles are before it has what it needs to reword it.
 */
import { useEffect, useState } from 'preact/hooks';
import type { Message } from '../../../../shared/messages/message.ts';
import type { Render } from '../../../../shared/messages/renderer.ts';
import { type Said, useSaid } from './use-say.ts';

let loaded: Render | undefined;

const load = async (): Promise<Render> => {
  loaded ??= (await import('../../ui/format/render-pile.ts')).renderPile;
  return loaded;
};

/** A message comes with the server's own words for it; see `useSaid`, which passes a text on as it was written. */
const notYet: Render = ({ code }: Message) => code;

/** @returns As `useSaid` of everything that a pile says. */
export function useSaidSoon(siteId?: string): Said {
  const [render, setRender] = useState<Render | undefined>(() => loaded);
  useEffect(() => {
    if (render === undefined) void load().then((ready) => setRender(() => ready));
  }, [render]);
  const said = useSaid(render ?? notYet, siteId);
  if (render !== undefined) return said;
  return (answer, name) => said({ ...answer, messages: undefined }, name);
}
