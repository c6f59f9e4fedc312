/** After a run: how the points came, what was really so, what each act did, and again. */
import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { Part } from '../../ui/parts/part.tsx';
import { ActEffects, OneGoodWay } from './act-effects.tsx';
import { rememberScore } from './best-score.ts';
import { CutOpen } from './cut-open.tsx';
import { DiaryList } from './diary-list.tsx';
import type { Frame } from './practice-session.ts';
import { startRun } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import { parting, tellingHour } from './said-and-so.ts';
import { ScoreLines } from './score-lines.tsx';
import { TwoPiles } from './two-piles.tsx';
import { useArrival } from './use-arrival.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';
import './practice.css';
import './tending.css';

interface DebriefViewProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
  readonly debrief: Debrief;
}

export function DebriefView({ scenario, run, frame, debrief }: DebriefViewProps) {
  const { text, rich } = usePracticeWords();
  const say = usePracticeSay();
  const pileName = say(scenario.name);
  const heading = useArrival(text('page-practice.over.title', { pileName }));
  const { score, truth, readings } = debrief;
  const [afterH, setAfterH] = useState(() => tellingHour(truth, readings));
  const parted = useMemo(() => parting(truth, readings), [truth, readings]);
  useEffect(() => rememberScore(scenario.id, score.points), []);
  return (
    <div class="page practice-debrief">
      <header class="opening">
        <p class="dateline">{rich('page-practice.dateline.over', { link: toList, pileName })}</p>
        <h1 ref={heading} tabIndex={-1}>
          {text('page-practice.over.heading', { pointCount: score.points, isReached: score.goalReached })}
        </h1>
        <p class="practice-goal">
          <span class="label">{text('page-practice.goal.over')}</span> {say(scenario.goal.says)}
        </p>
        {score.missed.length > 0 && (
          <ul class="missed">
            {score.missed.map((one) => (
              <li key={one.code}>{say(one)}</li>
            ))}
          </ul>
        )}
        <p class="sentence lesson">{say(debrief.lesson)}</p>
        <Again scenario={scenario} run={run} />
      </header>
      <Part id="points" title={text('page-practice.points')}>
        <ScoreLines score={score} />
      </Part>
      <Part id="truth" title={text('page-practice.truth')}>
        <TwoPiles scenario={scenario} truth={truth} readings={readings} afterH={afterH} onHour={setAfterH} />
        <ul class="plain-list parting">
          {parted.map((one) => (
            <li key={one.code}>{say(one)}</li>
          ))}
        </ul>
        <CutOpen
          scenario={scenario}
          debrief={debrief}
          startedAtMs={frame.startedAtMs}
          afterH={afterH}
          onHour={setAfterH}
        />
      </Part>
      <Part id="effects" title={text('page-practice.effects')}>
        <ActEffects debrief={debrief} startedAtMs={frame.startedAtMs} />
      </Part>
      <Part id="way" title={text('page-practice.way')}>
        <OneGoodWay debrief={debrief} startedAtMs={frame.startedAtMs} />
      </Part>
      <Part id="diary" title={text('page-practice.diary')}>
        <DiaryList diary={frame.diary} />
      </Part>
      <Part id="again" title={text('page-practice.again')}>
        <Again scenario={scenario} run={run} />
      </Part>
    </div>
  );
}

const toList = (inner: ComponentChildren) => <a href="/practice">{inner}</a>;

function Again({ scenario, run }: Pick<DebriefViewProps, 'scenario' | 'run'>) {
  const { text } = usePracticeWords();
  return (
    <div class="buttons">
      <button type="button" class="primary" onClick={() => startRun(scenario.id, run.seed)}>
        {text('page-practice.again.same')}
      </button>
      <button type="button" onClick={() => startRun(scenario.id, run.seed + 1)}>
        {text('page-practice.again.other')}
      </button>
      <a class="button" href="/practice">
        {text('page-practice.again.another')}
      </a>
    </div>
  );
}
