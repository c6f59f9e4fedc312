/** Before a run: what is found, what is asked for, and the cautions. */
import { message } from '../../../../shared/messages/message.ts';
import { cautions } from '../../../../simulator/practice/cautions.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { Part } from '../../ui/parts/part.tsx';
import { BedAsLaid } from './bed-as-laid.tsx';
import { daysOf } from './practice-time.ts';
import { startRun } from './run-keeper.ts';
import { useArrival } from './use-arrival.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import '../pile/pile-page.css';
import './practice.css';

/** Everybody begins in the same weather, so that people can talk about it. */
const firstSeed = 1;

export function Opening({ scenario }: { readonly scenario: PracticeScenario }) {
  const { text } = usePracticeWords();
  const say = usePracticeSay();
  const name = say(scenario.name);
  const heading = useArrival(name);
  return (
    <div class="page practice-opening">
      <header class="opening">
        <p class="dateline">
          <a href="/practice">{text('page-practice.title')}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {name}
        </h1>
        <div class="practice-found">
          <div>
            <p class="sentence">{say(scenario.story)}</p>
            <p class="next next-large">{say(scenario.goal.says)}</p>
            <Begin scenario={scenario} />
          </div>
          <BedAsLaid scenario={scenario} />
        </div>
      </header>
      <Part id="how" title={text('page-practice.how')}>
        <ul class="plain-list">
          <li>{text('page-practice.how.time', daysOf(scenario.hours))}</li>
          <li>{text('page-practice.how.warnings')}</li>
          <li>{say(probesSit(scenario))}</li>
          <li>{text('page-practice.how.end')}</li>
        </ul>
      </Part>
      <Part id="cautions" title={text('page-practice.cautions')}>
        <ul class="plain-list cautions">
          {cautions.map((caution) => (
            <li key={caution.code}>{say(caution)}</li>
          ))}
        </ul>
        <Begin scenario={scenario} />
      </Part>
    </div>
  );
}

function Begin({ scenario }: { readonly scenario: PracticeScenario }) {
  const { text } = usePracticeWords();
  return (
    <p class="buttons">
      <button type="button" class="primary" onClick={() => startRun(scenario.id, firstSeed)}>
        {text('page-practice.begin')}
      </button>
    </p>
  );
}

function probesSit({ probes }: PracticeScenario) {
  const inside = probes.filter(({ position }) => position !== 'air');
  return message('practice.probes-sit', {
    placesList: inside.map(({ position }) => message('practice.place', { position })),
    hasAir: inside.length < probes.length,
  });
}
