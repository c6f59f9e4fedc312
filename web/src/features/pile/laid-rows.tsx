/** What was laid as rows of a ledger: what nobody gave stands as not given, and what is assumed instead stands apart from it. */

import { type Laid, laidLines } from '../../../../core/records/laid-lines.ts';
import { laidTexts } from '../../../../shared/messages/made/en/laid.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSayMeasured } from '../../data/live/use-say-measured.ts';
import { usePileWords } from './use-pile-words.ts';

const renderLaid = rendererOf({ ...laidTexts, ...materialTexts });

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
