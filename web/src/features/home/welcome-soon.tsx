/** The welcome, which only a server without piles shows: nobody else loads it with the first page. */
import type { ComponentChildren } from 'preact';
import { loadSoon } from '../../ui/load-soon.ts';

const useWelcome = loadSoon(() => import('./welcome.tsx'));

/** @param meanwhile Stands there until it has come. */
export function WelcomeSoon({ meanwhile }: { readonly meanwhile: ComponentChildren }) {
  const { loaded } = useWelcome();
  return loaded === undefined ? meanwhile : <loaded.Welcome />;
}
