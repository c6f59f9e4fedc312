/** Warnings that stand at a pile though nobody is notified of them: shelved, or out of service. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { silencedSentence } from '../pile/alarm-words.ts';

export function SilencedLine({ pile }: { readonly pile: PileSummary }) {
  const silenced = silencedSentence(pile.alarms, useServerNow(), useReader(pile.site));
  return silenced === undefined ? null : <p class="facts">{silenced}</p>;
}
