/** The practice piles, and one of them from its story to its debrief. */
import { useEffect } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { practiceScenarios } from '../../../../simulator/practice/practice-scenarios.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { OwnTime } from '../../data/live/use-installation.ts';
import { useStore } from '../../data/store.ts';
import { NoPage } from '../../ui/parts/no-page.tsx';
import { DebriefView } from './debrief-view.tsx';
import { Opening } from './opening.tsx';
import { practiceReader } from './practice-time.ts';
import { hold, practiceRun, startRun } from './run-keeper.ts';
import { ScenarioList } from './scenario-list.tsx';
import { Tending } from './tending.tsx';
import { usePracticeWords } from './use-practice-words.ts';
import './practice.css';
import './tending.css';
import './pace.css';
import './cut-open.css';

export function PracticePage() {
  const { params } = useRoute();
  useEffect(() => {
    const holdWhenHidden = () => document.hidden && hold();
    document.addEventListener('visibilitychange', holdWhenHidden);
    return () => {
      document.removeEventListener('visibilitychange', holdWhenHidden);
      hold();
    };
  }, []);
  if (!params.id) return <ScenarioList />;
  const scenario = practiceScenarios.find(({ id }) => id === params.id);
  return scenario ? <OnePile key={scenario.id} scenario={scenario} /> : <NoPage />;
}

function OnePile({ scenario }: { readonly scenario: PracticeScenario }) {
  const { text } = usePracticeWords();
  const run = useStore(practiceRun, (one) => (one?.scenarioId === scenario.id ? one : null));
  if (!run) return <Opening scenario={scenario} />;
  const { frame, debrief } = run;
  if (run.stage === 'failed') {
    return (
      <div class="page narrow">
        <h1>{text('page-practice.broke')}</h1>
        <p class="lead">{run.fault ?? text('page-practice.broke.not-loaded')}</p>
        <button type="button" class="primary" onClick={() => startRun(scenario.id, run.seed)}>
          {text('page-practice.broke.again')}
        </button>
      </div>
    );
  }
  if (!frame) return <p class="page lead">{text('page-practice.laying')}</p>;
  return (
    <OwnTime.Provider value={{ nowMs: frame.atMs, reader: practiceReader(frame.startedAtMs) }}>
      {run.stage === 'over' && debrief ? (
        <DebriefView scenario={scenario} run={run} frame={frame} debrief={debrief} />
      ) : (
        <Tending scenario={scenario} run={run} frame={frame} />
      )}
    </OwnTime.Provider>
  );
}
