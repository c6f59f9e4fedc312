/** What the judge looked at, and the rule it went by. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { message } from '../../../../shared/messages/message.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { renderWhy } from '../pile/why-render.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './practice.css';
import './tending.css';

export function PracticeWhy({ pile }: { readonly pile: PileDetail }) {
  const { text } = usePracticeWords();
  const say = usePracticeSay();
  const said = useSaid(renderWhy);
  const present = pile.evidence.filter(({ evidence }) => evidence === 'present');
  const absent = [...new Set(pile.evidence.filter(({ evidence }) => evidence === 'absent').map(({ kind }) => kind))];
  return (
    <Part id="why" title={text('page-practice.why')}>
      {present.length === 0 ? (
        <p>{text('page-practice.why.nothing')}</p>
      ) : (
        <ul class="plain-list">
          {present.map((one) => (
            <li key={`${one.kind} ${one.position}`}>
              <b>{warningTitle(one.kind, one.position)}.</b> {said(one, 'seen')} {said(one, 'why')}
            </li>
          ))}
        </ul>
      )}
      {absent.length > 0 && (
        <p class="hint looked-for">
          {say(
            message('practice.not-seen', { conditionsList: absent.map((kind) => message(`condition.${kind}.name`)) }),
          )}
        </p>
      )}
    </Part>
  );
}
