/** One of many piles in a line: how pressing, which, how it is, how hot. */
import { useMemo } from 'preact/hooks';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { formatTemp } from '../../../../shared/temperature.ts';
import { msPerMinute } from '../../../../shared/units.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { usePrefs } from '../../data/prefs.ts';
import { heatColour } from '../../ui/colour/heat-scale.ts';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { useShade } from '../../ui/use-shade.ts';
import { TroubleLine } from '../pile/trouble-line.tsx';
import { unacknowledgedCount } from './home-order.ts';
import { stateOf } from './home-view.ts';
import { LastTwoDays } from './last-two-days.tsx';
import { PileFacts } from './pile-facts.tsx';
import { SilencedLine } from './silenced-line.tsx';
import './pile-line.css';

interface PileLineProps {
  readonly pile: PileSummary;
  /** Where lines of several sites stand together. */
  readonly siteName?: string | undefined;
}

const halfHourMs = 30 * msPerMinute;

export function PileLine({ pile, siteName }: PileLineProps) {
  const said = useSaidSoon(pile.site);
  const { text } = usePageTexts(pageHomeTexts);
  const { unit } = usePrefs();
  const [condition, next] = [said(pile, 'condition'), said(pile, 'next')];
  const waiting = unacknowledgedCount(pile);
  // Hundreds of lines stand together, and one pile says something new: the others are not looked at again.
  return useMemo(
    () => (
      <li class={`pile-line pile-line-${pile.tone}`}>
        <div class="pile-line-which">
          <h3>
            <a href={`/piles/${pile.id}`}>{pile.name}</a>
          </h3>
          {siteName !== undefined && <p class="facts">{siteName}</p>}
          <PileFacts pile={pile} namedFromMs={halfHourMs} />
        </div>
        <ToneMark tone={pile.tone} />
        <div class="pile-line-says">
          <p class="pile-line-sentence">{condition}</p>
          {stateOf(pile) === 'need' && next !== '' && <p class="next pile-line-next">{next}</p>}
          <TroubleLine pile={pile} />
          {waiting > 0 && (
            <p class="waiting pile-line-waiting">{text('page-home.unacknowledged', { alarmCount: waiting })}</p>
          )}
          <SilencedLine pile={pile} />
        </div>
        <div class="pile-line-curve">
          <LastTwoDays pile={pile} />
        </div>
        <CoreHeat pile={pile} unit={unit} />
      </li>
    ),
    [pile, siteName, condition, next, waiting, unit],
  );
}

function CoreHeat({ pile, unit }: { readonly pile: PileSummary; readonly unit: 'C' | 'F' }) {
  const shade = useShade();
  const { core } = pile.positions;
  const tempC = core?.silent === false ? core.temperatureC : undefined;
  return (
    <p class="pile-line-heat">
      {tempC !== undefined && (
        <>
          <span class="pile-line-swatch" style={{ background: heatColour(tempC, shade) }} aria-hidden="true" />
          {formatTemp(tempC, unit)}
        </>
      )}
    </p>
  );
}
