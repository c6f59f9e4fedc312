/**
 * Why a pile is not judged as it should be. Where nobody judges it, its own sentence says so already.
 */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { usePileWords } from './use-pile-words.ts';
import './trouble-note.css';

/** On its own page: with what to do, and what the program met. */
export function TroubleNote({ pile }: { readonly pile: PileSummary }) {
  const { trouble } = pile;
  const { text } = usePileWords();
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
          <summary>{text('page-pile.trouble.details')}</summary>
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
