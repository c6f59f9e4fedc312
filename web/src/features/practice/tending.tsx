/** A practice pile being tended: its sentence first, as on the page of a real one. */
import type { ComponentChildren } from 'preact';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { warningWords } from '../../ui/format/words.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { dampWords } from '../../ui/mound/mound-facts.ts';
import { useMoundWords } from '../../ui/mound/use-mound-words.ts';
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
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import '../pile/pile-page.css';
import './tending.css';

interface TendingProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
}

export function Tending({ scenario, run, frame }: TendingProps) {
  const { text } = usePracticeWords();
  const say = usePracticeSay();
  const said = useSaid(renderPile);
  const { pile, seen, diary } = frame;
  // With nothing to warn of, a phone shows the pile first.
  const warnings = <PracticeWarnings key="warnings" alarms={pile.alarms} stoppedBy={run.stoppedBy} />;
  return (
    <div class="page pile-page practice-run">
      <Head scenario={scenario} pile={pile} />
      <div class="unseen" role="log" aria-live="assertive" aria-label={text('page-practice.new-warnings')}>
        {run.stoppedBy &&
          text('page-practice.clock-stands.aloud', {
            warningText: warningWords(run.stoppedBy.kind),
            todoText: said(run.stoppedBy, 'todo'),
          })}
      </div>
      <div class="pile-now">
        {pile.alarms.length > 0 && warnings}
        <div class="pile-drawing" key="drawing">
          <Mound pile={pile} depthM={seen.depthM} cover={seen.cover} large />
          <DampLines frame={frame} />
          <p class="practice-goal">
            <span class="label">{text('page-practice.goal')}</span> {say(scenario.goal.says)}
          </p>
        </div>
        {pile.alarms.length === 0 && warnings}
      </div>
      <Part id="hands" title={text('page-practice.hands')}>
        <Hands scenario={scenario} run={run} frame={frame} />
      </Part>
      <Part id="history" title={text('page-practice.history')}>
        <Ahead pile={pile} />
        <AheadInWords pile={pile} series={frame.series} />
        <SeenCharts frame={frame} />
      </Part>
      <Moisture pile={pile} />
      <Part id="diary" title={text('page-practice.diary')}>
        <DiaryList diary={diary} />
        <p class="buttons">
          <button type="button" class="plain" onClick={endRun}>
            {text('page-practice.leave')}
          </button>
        </p>
      </Part>
      <PracticeDone pile={pile} />
      <PracticeWhy pile={pile} />
      <PaceBar scenario={scenario} run={run} frame={frame} />
    </div>
  );
}

const toList = (inner: ComponentChildren) => <a href="/practice">{inner}</a>;

function Head({ scenario, pile }: Pick<TendingProps, 'scenario'> & Pick<Frame, 'pile'>) {
  const { text, rich } = usePracticeWords();
  const name = usePracticeSay()(scenario.name);
  const heading = useArrival(name);
  const said = useSaid(renderPile);
  return (
    <header class="opening practice-head">
      <p class="dateline">{rich('page-practice.dateline.run', { link: toList })}</p>
      <div class="pile-title">
        <h1 ref={heading} tabIndex={-1}>
          {name}
        </h1>
        <ToneMark tone={pile.tone} />
      </div>
      <p class="sentence sentence-large">{said(pile, 'condition')}</p>
      <p class="next next-large">{said(pile, 'next')}</p>
      {pile.tone !== 'calm' && (
        <p class="buttons">
          <a class="button" href="#hands">
            {text('page-practice.hands.lend')}
          </a>
        </p>
      )}
    </header>
  );
}

/** What is measured beside heat, and what the dots rest on. */
function DampLines({ frame: { pile } }: { readonly frame: Frame }) {
  const moundWords = useMoundWords();
  const { text } = usePracticeWords();
  const humidityPct = pile.positions.core?.humidityPct;
  return (
    <p class="hint damp-lines">
      {humidityPct !== undefined &&
        `${text('page-practice.humidity', { humidityPct: Math.round(Math.min(100, humidityPct)) })} `}
      {dampWords(pile, moundWords)}
    </p>
  );
}
