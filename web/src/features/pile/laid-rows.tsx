/** What was laid as rows of a ledger: what nobody gave stands as not given, and what is assumed instead stands apart from it. */

import { type Laid, laidLines } from '../../../../core/records/laid-lines.ts';
import { useSayMeasured } from '../../data/live/use-say-measured.ts';
import { renderLaid } from '../../ui/format/render-laid.ts';
import { usePileWords } from './use-pile-words.ts';

export function LaidRows({ laid }: { readonly laid: Laid }) {
  const say = useSayMeasured(renderLaid);
  const { text } = usePileWords();
  return (
    <>
      {laidLines(laid).map(({ what, given, assumed }) => (
        <div key={what.code}>
          <dt>{say(what)}</dt>
          <dd>
            {given === null ? text('page-pile.laid.not-given') : <b>{say(given)}</b>}
            {assumed !== null && <span class="origin"> {say(assumed)}</span>}
          </dd>
        </div>
      ))}
    </>
  );
}
