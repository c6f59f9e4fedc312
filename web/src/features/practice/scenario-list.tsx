/** The practice piles, in the order a newcomer should take them. */

import { practiceScenarios } from '../../../../simulator/practice/practice-scenarios.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useStore } from '../../data/store.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { BedAsLaid } from './bed-as-laid.tsx';
import { type BestScores, bestScores } from './best-score.ts';
import { daysWords, runLengthWords } from './practice-time.ts';
import { practiceRun } from './run-keeper.ts';
import './practice.css';

export function ScenarioList() {
  const heading = usePage('Practice');
  const best = bestScores();
  const openId = useStore(practiceRun, (run) => (run?.stage === 'tending' ? run.scenarioId : null));
  return (
    <div class="page practice-list">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          Try your hands on a pile nobody needs.
        </h1>
        <p class="lead">
          Each of these piles is simulated and runs in fast time. Its probes talk, and the page says of it what it would
          say of a real one. You turn, water, cover, or leave it alone. At the end it is cut open, and you see what was
          really so.
        </p>
      </div>
      <ol class="practice-entries">
        {practiceScenarios.map((scenario, i) => (
          <Entry
            key={scenario.id}
            scenario={scenario}
            first={i === 0}
            best={best[scenario.id]}
            open={scenario.id === openId}
          />
        ))}
      </ol>
    </div>
  );
}

interface EntryProps {
  readonly scenario: PracticeScenario;
  readonly first: boolean;
  readonly best: BestScores[string] | undefined;
  readonly open: boolean;
}

function Entry({ scenario, first, best, open }: EntryProps) {
  const { unit } = usePrefs();
  const { id, name, story, goal, hours, awayUntilH } = scenario;
  return (
    <li class="entry">
      <article aria-labelledby={`practice-${id}`}>
        <header class="entry-head">
          <h2 class="story-title" id={`practice-${id}`}>
            <a href={`/practice/${id}`}>{name}</a>
          </h2>
          {first && best === undefined && <span class="quiet">a good one to begin with</span>}
        </header>
        <p class="story">{sentenceIn(unit, story)}</p>
        <p class="next">{sentenceIn(unit, goal.says)}</p>
        <p class="facts">
          {capital(daysWords(hours - awayUntilH))}, {runLengthWords(hours - awayUntilH)} of yours.
          {best !== undefined && ` Your best so far: ${best} of 100.`}
          {open && <b> You are in the middle of it.</b>}
        </p>
        <div class="entry-mound">
          <BedAsLaid scenario={scenario} />
        </div>
      </article>
    </li>
  );
}
