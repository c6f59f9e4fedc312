/** The welcome, which only a server without piles shows: nobody else loads it with the first page. */
import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

let loaded: ComponentType | undefined;

/** @param meanwhile Stands there until it has come. */
export function WelcomeSoon({ meanwhile }: { readonly meanwhile: ComponentChildren }) {
  const [Welcome, setWelcome] = useState<ComponentType | undefined>(() => loaded);
  useEffect(() => {
    if (Welcome !== undefined) return;
    void import('./welcome.tsx').then((page) => {
      loaded = page.Welcome;
      setWelcome(() => page.Welcome);
    });
  }, [Welcome]);
  return Welcome === undefined ? meanwhile : <Welcome />;
}
