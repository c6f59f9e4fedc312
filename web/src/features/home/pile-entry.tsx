/** One of a few piles: how it is, what to do next, its mound and its last two days. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { TroubleLine } from '../pile/trouble-line.tsx';
import { unacknowledgedCount } from './home-order.ts';
import { LastTwoDays } from './last-two-days.tsx';
import { PileFacts } from './pile-facts.tsx';
import { SilencedLine } from './silenced-line.tsx';

export function PileEntry({ pile }: { readonly pile: PileSummary }) {
  const said = useSaidSoon(pile.site);
  const { text } = usePageTexts(pageHomeTexts);
  const waiting = unacknowledgedCount(pile);
  return (
    <li class="entry">
      <article aria-labelledby={`pile-${pile.id}`}>
        <header class="entry-head">
          <h3 id={`pile-${pile.id}`}>
            <a href={`/piles/${pile.id}`}>{pile.name}</a>
          </h3>
          <ToneMark tone={pile.tone} />
        </header>
        <p class="sentence">{said(pile, 'condition')}</p>
        {pile.next && <p class="next">{said(pile, 'next')}</p>}
        <TroubleLine pile={pile} />
        {waiting > 0 && <p class="waiting">{text('page-home.unacknowledged', { alarmCount: waiting })}</p>}
        <SilencedLine pile={pile} />
        <PileFacts pile={pile} />
        <div class="entry-mound">
          <Mound pile={pile} />
          <LastTwoDays pile={pile} />
        </div>
      </article>
    </li>
  );
}
