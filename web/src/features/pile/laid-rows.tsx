/** What was laid as rows of a ledger: what nobody gave stands as not given, and what is assumed instead stands apart from it. */

import { type Laid, laidLines } from '../../../../core/records/laid-lines.ts';
import { measureText } from '../../../../shared/measure.ts';
import { usePlanUnits } from '../../data/plan-units.ts';

export function LaidRows({ laid }: { readonly laid: Laid }) {
  const units = usePlanUnits();
  return (
    <>
      {laidLines(laid, (kind, value) => measureText(kind, value, units, 3)).map(({ what, given, assumed }) => (
        <div key={what}>
          <dt>{what}</dt>
          <dd>
            {given === null ? 'Not given' : <b>{given}</b>}
            {assumed !== null && <span class="origin"> {assumed}</span>}
          </dd>
        </div>
      ))}
    </>
  );
}
