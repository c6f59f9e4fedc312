/** One probe that talks, what it says and since when, and whether it is getting warmer. */
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { ageWords } from '../../ui/format/age.ts';
import { lastWords } from './probe-facts.ts';
import type { TalkingProbe } from './use-talking-probes.ts';
import './talking.css';

export function TalkingLine({ talking }: { readonly talking: TalkingProbe }) {
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const { probe, name, rises } = talking;
  return (
    <span class="talking-line">
      <b>{name}</b> {lastWords(probe.last, unit)}
      {probe.lastAt && <span class="talking-age">, {ageWords(nowMs - Date.parse(probe.lastAt))}</span>}
      {rises && <span class="talking-rises">rising</span>}
    </span>
  );
}

export function warmHint(count: number): string {
  return count === 1
    ? 'Warm it in your hand to be sure: it is then marked as rising.'
    : 'Warm one in your hand to find it: the one that rises is marked.';
}
