/** One probe that talks, what it says and since when, and whether it is getting warmer. */
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';

import { lastWords } from './probe-facts.ts';
import type { TalkingProbe } from './use-talking-probes.ts';
import './talking.css';
import { useTalkingWords } from './use-talking-words.ts';

export function TalkingLine({ talking }: { readonly talking: TalkingProbe }) {
  const { text, rich } = useTalkingWords();
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const { probe, name, rises } = talking;
  const read = lastWords(probe.last, unit);
  return (
    <span class="talking-line">
      {rich('page-talking.line', {
        probeName: name,
        name: (inner) => <b>{inner}</b>,
        isRead: read !== '',
        readText: read,
        isHeard: probe.lastAt !== null,
        heardAgoMs: probe.lastAt === null ? 0 : nowMs - Date.parse(probe.lastAt),
        age: (inner) => <span class="talking-age">{inner}</span>,
      })}
      {rises && <span class="talking-rises">{text('page-talking.rising')}</span>}
    </span>
  );
}
