import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import './trouble-note.css';

/** Where the record of its batch cannot be read, nobody knows at which stage it is. */
export const isStageKnown = ({ trouble }: PileSummary) => trouble?.code !== 'batch-unreadable' || trouble.judged;

/** On the home page: only what the pile's sentence does not say. */
export function TroubleLine({ pile }: { readonly pile: PileSummary }) {
  const { trouble } = pile;
  const said = useSaidSoon(pile.site);
  if (!trouble?.judged) return null;
  return <p class="pile-trouble">{said(trouble, 'says')}</p>;
}
