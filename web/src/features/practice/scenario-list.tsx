/** The practice piles, in the order a newcomer should take them. */

import { practiceScenarios } from '../../../../simulator/practice/practice-scenarios.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { useStore } from '../../data/store.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { BedAsLaid } from './bed-as-laid.tsx';
import { type BestScores, bestScores } from './best-score.ts';
import { daysOf, minutesOf } from './practice-time.ts';
import { practiceRun } from './run-keeper.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './practice.css';

export function ScenarioList() {
  const { text } = usePracticeWords();
  const heading = usePage(text('page-practice.title'));
  const best = bestScores();
  const openId = useStore(practiceRun, (run) => (run?.stage === 'tending' ? run.scenarioId : null));
  return (
    <div class="page practice-list">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-practice.list.heading')}
        </h1>
        <p class="lead">{text('page-practice.list.lead')}</p>
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
  const { text } = usePracticeWords();
  const say = usePracticeSay();
  const { id, name, story, goal, hours, awayUntilH } = scenario;
  const lengthH = hours - awayUntilH;
  return (
    <li class="entry">
      <article aria-labelledby={`practice-${id}`}>
        <header class="entry-head">
          <h2 class="story-title" id={`practice-${id}`}>
            <a href={`/practice/${id}`}>{say(name)}</a>
          </h2>
          {first && best === undefined && <span class="quiet">{text('page-practice.list.first')}</span>}
        </header>
        <p class="story">{say(story)}</p>
        <p class="next">{say(goal.says)}</p>
        <p class="facts">
          {text('page-practice.list.length', { ...daysOf(lengthH), minutes: minutesOf(lengthH) })}
          {best !== undefined && ` ${text('page-practice.list.best', { pointCount: best })}`}
          {open && <b> {text('page-practice.list.open')}</b>}
        </p>
        <div class="entry-mound">
          <BedAsLaid scenario={scenario} />
        </div>
      </article>
    </li>
  );
}
