/** Before a run: what is found, what is asked for, and the cautions. */
import { cautions } from '../../../../simulator/practice/cautions.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { positionNames } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { BedAsLaid } from './bed-as-laid.tsx';
import { daysWords } from './practice-time.ts';
import { startRun } from './run-keeper.ts';
import { useArrival } from './use-arrival.ts';
import '../pile/pile-page.css';
import './practice.css';

/** Everybody begins in the same weather, so that people can talk about it. */
const firstSeed = 1;

export function Opening({ scenario }: { readonly scenario: PracticeScenario }) {
  const heading = useArrival(scenario.name);
  const { unit } = usePrefs();
  const begin = () => startRun(scenario.id, firstSeed);
  return (
    <div class="page practice-opening">
      <header class="opening">
        <p class="dateline">
          <a href="/practice">Practice</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {scenario.name}
        </h1>
        <div class="practice-found">
          <div>
            <p class="sentence">{sentenceIn(unit, scenario.story)}</p>
            <p class="next next-large">{sentenceIn(unit, scenario.goal.says)}</p>
            <p class="buttons">
              <button type="button" class="primary" onClick={begin}>
                Go to the pile
              </button>
            </p>
          </div>
          <BedAsLaid scenario={scenario} />
        </div>
      </header>
      <Part id="how" title="How it goes">
        <ul class="plain-list">
          <li>
            The run is {daysWords(scenario.hours)} long. Time stands until you let it run: an hour or four hours of the
            pile in each second of yours, or a jump to the next morning.
          </li>
          <li>A new warning stops the clock, so that you can read it and choose what to do.</li>
          <li>
            Probes sit in the {placesWords(scenario)}. They say what they measure, which is not always what is so: your
            hand and nose can be asked at any hour.
          </li>
          <li>When you think the batch is done, say so. Nobody else will: probes cannot smell.</li>
        </ul>
      </Part>
      <Part id="cautions" title="Before you touch a real one">
        <ul class="plain-list cautions">
          {cautions.map((caution) => (
            <li key={caution}>{sentenceIn(unit, caution)}</li>
          ))}
        </ul>
        <p class="buttons">
          <button type="button" class="primary" onClick={begin}>
            Go to the pile
          </button>
        </p>
      </Part>
    </div>
  );
}

function placesWords({ probes }: PracticeScenario): string {
  const inside = probes.filter(({ position }) => position !== 'air').map(({ position }) => positionNames[position]);
  const beside = probes.some(({ position }) => position === 'air') ? ', and one hangs in the air beside the pile' : '';
  return `${inside.slice(0, -1).join(', ')} and ${inside.at(-1)}${beside}`;
}
