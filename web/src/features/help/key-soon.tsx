/** The key to the signs, folded; what it shows is loaded once somebody opens it. */
import { useState } from 'preact/hooks';
import { pageHelpLinkTexts } from '../../../../shared/messages/made/en/page-help-link.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';

type Key = typeof import('./signs-key.tsx').SignsKey;

export function KeySoon() {
  const { text } = usePageTexts(pageHelpLinkTexts);
  const [Key, setKey] = useState<{ readonly Shown: Key }>();
  const load = async () => setKey({ Shown: (await import('./signs-key.tsx')).SignsKey });
  return (
    <details class="more" onToggle={(event) => event.currentTarget.open && !Key && void load()}>
      <summary>{text('page-help-link.key')}</summary>
      <div>{Key && <Key.Shown />}</div>
    </details>
  );
}
