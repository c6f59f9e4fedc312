/** The limits a warning is weighed by, each with where it comes from. */
import { conditionOf } from '../../../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { usePrefs } from '../../data/prefs.ts';
import { Part } from '../../ui/parts/part.tsx';
import { limitLines } from './limit-lines.ts';
import { usePileWords } from './use-pile-words.ts';

export function WhyLimits({ pile, kind }: { readonly pile: PileDetail; readonly kind: WarningKind }) {
  const { unit } = usePrefs();
  const words = usePileWords();
  const { text, rich } = words;
  const wanted: readonly string[] = conditionOf(kind).restsOn.limits;
  const limits = Object.fromEntries(Object.entries(pile.limits).filter(([key]) => wanted.includes(key)));
  const lines = limitLines(limits, unit, words);
  return (
    <Part id="limits" title={text('page-pile.why.limits')}>
      {lines.length === 0 ? (
        <p>{text('page-pile.why.limits.none')}</p>
      ) : (
        <>
          <dl class="ledger">
            {lines.map(({ what, value, origin }) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>
                  <b>{value}</b> <span class="origin">{origin}</span>
                </dd>
              </div>
            ))}
          </dl>
          <p class="hint">
            {rich('page-pile.why.limits.change', {
              link: (inner) => <a href={`/piles/${encodeURIComponent(pile.id)}`}>{inner}</a>,
            })}
          </p>
        </>
      )}
    </Part>
  );
}
