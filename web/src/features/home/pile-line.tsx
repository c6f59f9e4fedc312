/** One of many piles in a line: how pressing, which, how it is, how hot. */
import { Component, createRef, type RefObject } from 'preact';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { formatTemp } from '../../../../shared/temperature.ts';
import { msPerMinute } from '../../../../shared/units.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { usePrefs } from '../../data/prefs.ts';
import { heatColour } from '../../ui/colour/heat-scale.ts';
import { followSight, leaveSight } from '../../ui/in-sight.ts';
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

/** What is out of sight follows at this rhythm, and at once where it asks something else of people [ms]. */
const unseenMs = 10_000;

/** Hundreds of lines stand together, each says something new every few seconds, and a screen shows ten of them. */
export class PileLine extends Component<PileLineProps> {
  private readonly frame = createRef<HTMLLIElement>();
  private isSeen = false;
  private drawnMs = performance.now();

  override componentDidMount(): void {
    if (this.frame.current) followSight(this.frame.current, this.see);
  }

  override componentWillUnmount(): void {
    if (this.frame.current) leaveSight(this.frame.current);
  }

  private readonly see = (isSeen: boolean): void => {
    this.isSeen = isSeen;
    if (isSeen) this.forceUpdate();
  };

  override shouldComponentUpdate({ pile, siteName }: PileLineProps): boolean {
    const { pile: drawn, siteName: drawnSite } = this.props;
    if (pile === drawn && siteName === drawnSite) return false;
    return (
      this.isSeen ||
      performance.now() - this.drawnMs >= unseenMs ||
      pile.tone !== drawn.tone ||
      pile.name !== drawn.name ||
      unacknowledgedCount(pile) !== unacknowledgedCount(drawn)
    );
  }

  override render({ pile, siteName }: PileLineProps) {
    this.drawnMs = performance.now();
    return <Line pile={pile} siteName={siteName} frame={this.frame} />;
  }
}

function Line({ pile, siteName, frame }: PileLineProps & { readonly frame: RefObject<HTMLLIElement | null> }) {
  const said = useSaidSoon(pile.site);
  const { text } = usePageTexts(pageHomeTexts);
  const { unit } = usePrefs();
  const next = stateOf(pile) === 'need' ? said(pile, 'next') : '';
  const waiting = unacknowledgedCount(pile);
  return (
    <li class={`pile-line pile-line-${pile.tone}`} ref={frame}>
      <div class="pile-line-which">
        <h3>
          <a href={`/piles/${pile.id}`}>{pile.name}</a>
        </h3>
        {siteName !== undefined && <p class="facts">{siteName}</p>}
        <PileFacts pile={pile} namedFromMs={halfHourMs} />
      </div>
      <ToneMark tone={pile.tone} />
      <div class="pile-line-says">
        <p class="pile-line-sentence">{said(pile, 'condition')}</p>
        {next !== '' && <p class="next pile-line-next">{next}</p>}
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
