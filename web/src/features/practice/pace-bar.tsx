/** The run along its days and nights, and how fast time goes. */

import { msPerHour } from '../../../../shared/units.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useWidth } from '../../ui/use-width.ts';
import { scaleOf } from './cut-drawing.ts';
import { midnightsOf, nightsOf } from './night-line.ts';
import type { Frame } from './practice-session.ts';
import { whenOf } from './practice-time.ts';
import { hold, letRun, setPace, skipHours, skipToMorning } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import { usePracticeWords } from './use-practice-words.ts';
import './pace.css';

interface PaceBarProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
}

export function PaceBar({ scenario, run, frame }: PaceBarProps) {
  const reader = useReader();
  const { text } = usePracticeWords();
  return (
    <section class="pace-bar" aria-label={text('page-practice.time')}>
      <div class="pace-when">
        <p>
          <b>{text('page-practice.when.start', whenOf(frame.atMs, reader))}</b>
        </p>
        <p class="quiet">
          {text('page-practice.time.hour', { hourNumber: Math.floor(frame.afterH), hoursNumber: scenario.hours })}
        </p>
      </div>
      <DayLine scenario={scenario} frame={frame} />
      <div class="pace-buttons">
        {run.flowing ? (
          <button type="button" class="primary" onClick={hold}>
            {text('page-practice.time.hold')}
          </button>
        ) : (
          <button type="button" class="primary" onClick={letRun}>
            {text('page-practice.time.run')}
          </button>
        )}
        <button
          type="button"
          aria-pressed={run.pace === 4}
          onClick={() => setPace(run.pace === 4 ? 1 : 4)}
          title={text('page-practice.time.pace', { paceHours: run.pace })}
        >
          {text('page-practice.time.faster')}
        </button>
        <button type="button" onClick={() => skipHours(skipH)}>
          {text('page-practice.time.on', { skipHours: skipH })}
        </button>
        <button type="button" onClick={skipToMorning}>
          {text('page-practice.time.morning')}
        </button>
      </div>
    </section>
  );
}

/** What one tap lets pass [h]. */
const skipH = 6;

const line = { height: 34, edge: 7, groundY: 24, nightDepth: 6 } as const;

/** Ground with its nights below it; what happened stands on it, and the hour now is a stake. */
function DayLine({ scenario, frame }: Pick<PaceBarProps, 'scenario' | 'frame'>) {
  const { place, width } = useWidth(320, 120);
  const { hours } = scenario;
  const { startedAtMs, afterH, diary } = frame;
  const x = scaleOf(0, hours, line.edge, width - line.edge);
  return (
    <div class="day-line" ref={place}>
      <svg width={width} height={line.height} viewBox={`0 0 ${width} ${line.height}`} aria-hidden="true">
        {nightsOf(startedAtMs, hours).map(({ fromH, toH }) => (
          <rect
            key={fromH}
            class="day-night"
            x={x(fromH)}
            y={line.groundY}
            width={x(toH) - x(fromH)}
            height={line.nightDepth}
          />
        ))}
        <path class="day-ground" d={`M${x(0)} ${line.groundY}H${x(hours)}`} />
        <path class="day-done" d={`M${x(0)} ${line.groundY}H${x(afterH)}`} />
        {midnightsOf(startedAtMs, hours).map((atH) => (
          <path key={atH} class="day-ground" d={`M${x(atH)} ${line.groundY - 3}v3`} />
        ))}
        {diary.map(({ atMs, kind }, i) => {
          const at = x((atMs - startedAtMs) / msPerHour);
          return kind === 'warning' ? (
            <path key={i} class="day-warning" d={`M${at - 3.5} ${line.groundY - 2}q1 -8 3.5 -9q2.5 1 3.5 9z`} />
          ) : kind === 'act' ? (
            <path key={i} class="day-act" d={`M${at} ${line.groundY - 1}v-8`} />
          ) : null;
        })}
        <path class="day-now" d={`M${x(afterH)} ${line.groundY + 7}V6`} />
        <circle class="day-now" cx={x(afterH)} cy="6" r="4" />
      </svg>
    </div>
  );
}
