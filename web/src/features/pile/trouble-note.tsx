/**
 * Why a pile is not judged as it should be. Where nobody judges it, its own sentence says so already.
 */
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

/** On its own page: with what to do, and what the program met. */
export function TroubleNote({ pile }: { readonly pile: PileSummary }) {
  const { trouble } = pile;
  const said = useSaidSoon(pile.site);
  if (!trouble) return null;
  return (
    <div class="pile-trouble">
      {trouble.judged && (
        <p>
          {said(trouble, 'says')} {said(trouble, 'todo')}
        </p>
      )}
      {trouble.details.length > 0 && (
        <details>
          <summary>What the program met</summary>
          <ul>
            {trouble.details.map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
