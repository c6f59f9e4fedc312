/** After a run: how the points came, what was really so, what each act did, and again. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { Part } from '../../ui/parts/part.tsx';
import { ActEffects, OneGoodWay } from './act-effects.tsx';
import { rememberScore } from './best-score.ts';
import { CutOpen } from './cut-open.tsx';
import { DiaryList } from './diary-list.tsx';
import type { Frame } from './practice-session.ts';
import { startRun } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import { partingWords, tellingHour } from './said-and-so.ts';
import { ScoreLines } from './score-lines.tsx';
import { TwoPiles } from './two-piles.tsx';
import { useArrival } from './use-arrival.ts';
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
  const heading = useArrival(`${scenario.name}, cut open`);
  const { unit } = usePrefs();
  const { score, truth, readings } = debrief;
  const [afterH, setAfterH] = useState(() => tellingHour(truth, readings));
  const parting = useMemo(() => partingWords(truth, readings), [truth, readings]);
  useEffect(() => rememberScore(scenario.id, score.points), []);
  return (
    <div class="page practice-debrief">
      <header class="opening">
        <p class="dateline">
          <a href="/practice">Practice</a>, {scenario.name}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {score.points} of 100. {score.goalReached ? 'You reached the goal.' : 'The goal was missed.'}
        </h1>
        <p class="practice-goal">
          <span class="label">The goal</span> {sentenceIn(unit, scenario.goal.says)}
        </p>
        {score.missed.length > 0 && (
          <ul class="missed">
            {score.missed.map((one) => (
              <li key={one}>{sentenceIn(unit, one)}</li>
            ))}
          </ul>
        )}
        <p class="sentence lesson">{sentenceIn(unit, debrief.lesson)}</p>
        <Again scenario={scenario} run={run} />
      </header>
      <Part id="points" title="How the points came">
        <ScoreLines score={score} />
      </Part>
      <Part id="truth" title="What was really so">
        <TwoPiles scenario={scenario} truth={truth} readings={readings} afterH={afterH} onHour={setAfterH} />
        <ul class="plain-list parting">
          {parting.map((one) => (
            <li key={one}>{sentenceIn(unit, one)}</li>
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
      <Part id="effects" title="What each act did">
        <ActEffects debrief={debrief} startedAtMs={frame.startedAtMs} />
      </Part>
      <Part id="way" title="One good way">
        <OneGoodWay debrief={debrief} startedAtMs={frame.startedAtMs} />
      </Part>
      <Part id="diary" title="What happened">
        <DiaryList diary={frame.diary} />
      </Part>
      <Part id="again" title="Once more">
        <Again scenario={scenario} run={run} />
      </Part>
    </div>
  );
}

function Again({ scenario, run }: Pick<DebriefViewProps, 'scenario' | 'run'>) {
  return (
    <div class="buttons">
      <button type="button" class="primary" onClick={() => startRun(scenario.id, run.seed)}>
        Again, in the same weather
      </button>
      <button type="button" onClick={() => startRun(scenario.id, run.seed + 1)}>
        Again, in other weather
      </button>
      <a class="button" href="/practice">
        Another pile
      </a>
    </div>
  );
}
