/** A practice pile being tended: its sentence first, as on the page of a real one. */
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { readingWords } from '../../ui/format/quantity-words.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { warningNames } from '../../ui/format/words.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { dampWords } from '../../ui/mound/mound-facts.ts';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Ahead, AheadInWords } from '../pile/ahead.tsx';
import { Moisture } from '../pile/moisture.tsx';
import { Hands } from './act-panel.tsx';
import { DiaryList } from './diary-list.tsx';
import { PaceBar } from './pace-bar.tsx';
import { PracticeDone } from './practice-done.tsx';
import type { Frame } from './practice-session.ts';
import { PracticeWarnings } from './practice-warnings.tsx';
import { PracticeWhy } from './practice-why.tsx';
import { endRun } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import { SeenCharts } from './seen-charts.tsx';
import { useArrival } from './use-arrival.ts';
import '../pile/pile-page.css';
import './tending.css';

interface TendingProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
}

export function Tending({ scenario, run, frame }: TendingProps) {
  const { unit } = usePrefs();
  const said = useSaid(renderPile);
  const { pile, seen, diary } = frame;
  // With nothing to warn of, a phone shows the pile first.
  const warnings = <PracticeWarnings key="warnings" alarms={pile.alarms} stoppedBy={run.stoppedBy} />;
  return (
    <div class="page pile-page practice-run">
      <Head scenario={scenario} pile={pile} />
      <div class="unseen" role="log" aria-live="assertive" aria-label="New warnings of this pile">
        {run.stoppedBy &&
          `The clock stands. New warning: ${warningNames[run.stoppedBy.kind]}. ${said(run.stoppedBy, 'todo')}`}
      </div>
      <div class="pile-now">
        {pile.alarms.length > 0 && warnings}
        <div class="pile-drawing" key="drawing">
          <Mound pile={pile} depthM={seen.depthM} cover={seen.cover} large />
          <DampLines frame={frame} />
          <p class="practice-goal">
            <span class="label">Your goal</span> {sentenceIn(unit, scenario.goal.says)}
          </p>
        </div>
        {pile.alarms.length === 0 && warnings}
      </div>
      <Part id="hands" title="Your hands">
        <Hands scenario={scenario} run={run} frame={frame} />
      </Part>
      <Part id="history" title="How it went">
        <Ahead pile={pile} />
        <AheadInWords pile={pile} series={frame.series} />
        <SeenCharts frame={frame} />
      </Part>
      <Moisture pile={pile} />
      <Part id="diary" title="What happened">
        <DiaryList diary={diary} />
        <p class="buttons">
          <button type="button" class="plain" onClick={endRun}>
            Leave this pile and begin anew
          </button>
        </p>
      </Part>
      <PracticeDone pile={pile} />
      <PracticeWhy pile={pile} />
      <PaceBar scenario={scenario} run={run} frame={frame} />
    </div>
  );
}

function Head({ scenario, pile }: Pick<TendingProps, 'scenario'> & Pick<Frame, 'pile'>) {
  const heading = useArrival(scenario.name);
  const said = useSaid(renderPile);
  return (
    <header class="opening practice-head">
      <p class="dateline">
        <a href="/practice">Practice</a>, not a real pile
      </p>
      <div class="pile-title">
        <h1 ref={heading} tabIndex={-1}>
          {scenario.name}
        </h1>
        <ToneMark tone={pile.tone} />
      </div>
      <p class="sentence sentence-large">{said(pile, 'condition')}</p>
      <p class="next next-large">{said(pile, 'next')}</p>
      {pile.tone !== 'calm' && (
        <p class="buttons">
          <a class="button" href="#hands">
            Lend a hand
          </a>
        </p>
      )}
    </header>
  );
}

/** What is measured beside heat, and what the dots rest on. */
function DampLines({ frame: { pile } }: { readonly frame: Frame }) {
  const { unit } = usePrefs();
  const humidityPct = pile.positions.core?.humidityPct;
  const dots = dampWords(pile);
  return (
    <p class="hint damp-lines">
      {humidityPct !== undefined && `The air in the core: ${readingWords('humidity', humidityPct, unit)}. `}
      {dots && sentenceIn(unit, dots)}
    </p>
  );
}
