/** The limits a warning is weighed by, each with where it comes from. */
import { conditionOf } from '../../../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { usePrefs } from '../../data/prefs.ts';
import { Part } from '../../ui/parts/part.tsx';
import { limitLines } from './limit-lines.ts';

export function WhyLimits({ pile, kind }: { readonly pile: PileDetail; readonly kind: WarningKind }) {
  const { unit } = usePrefs();
  const wanted: readonly string[] = conditionOf(kind).restsOn.limits;
  const limits = Object.fromEntries(Object.entries(pile.limits).filter(([key]) => wanted.includes(key)));
  const lines = limitLines(limits, unit);
  return (
    <Part id="limits" title="Its limits">
      {lines.length === 0 ? (
        <p>Its figures are those of the rule above; none of them is a limit of this batch.</p>
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
            <a href={`/piles/${encodeURIComponent(pile.id)}`}>Limits are changed on the pile’s page</a>, for this batch
            alone.
          </p>
        </>
      )}
    </Part>
  );
}
