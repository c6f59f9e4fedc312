/** Whether the page stands in light or dark now, by choice or by the device. */
import { useEffect, useState } from 'preact/hooks';
import { usePrefs } from '../data/prefs.ts';
import type { Shade } from './colour/heat-scale.ts';

const darkDevice = () => matchMedia('(prefers-color-scheme: dark)');

export function useShade(): Shade {
  const { shade } = usePrefs();
  const [device, setDevice] = useState<Shade>(() => (darkDevice().matches ? 'dark' : 'light'));
  useEffect(() => {
    const query = darkDevice();
    const look = () => setDevice(query.matches ? 'dark' : 'light');
    query.addEventListener('change', look);
    return () => query.removeEventListener('change', look);
  }, []);
  return shade === 'auto' ? device : shade;
}

/** Puts a remembered choice on the document; "auto" leaves it to the device. */
export function applyShade(shade: 'auto' | Shade): void {
  if (shade === 'auto') delete document.documentElement.dataset.shade;
  else document.documentElement.dataset.shade = shade;
}
