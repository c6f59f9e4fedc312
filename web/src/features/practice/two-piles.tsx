/** One hour of the run twice: the pile as its probes saw it, and as it was. */
import { useMemo } from 'preact/hooks';
import { toInstant } from '../../../../shared/contracts/time.ts';
import type { TruthRow } from '../../../../simulator/practice/record.ts';
import type { PracticeReading, PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { OwnTime, useReader } from '../../data/live/use-installation.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { whenOf } from './practice-time.ts';
import { saidPositions, truePositions } from './said-and-so.ts';
import { usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';

interface TwoPilesProps {
  readonly scenario: PracticeScenario;
  readonly truth: readonly TruthRow[];
  readonly readings: readonly PracticeReading[];
  readonly afterH: number;
  readonly onHour: (afterH: number) => void;
}

export function TwoPiles({ scenario, truth, readings, afterH, onHour }: TwoPilesProps) {
  const { text } = usePracticeWords();
  const reader = useReader();
  const row = truth.find((one) => one.afterH >= afterH) ?? (truth.at(-1) as TruthRow);
  const said = useMemo(() => saidPositions(readings, row.atMs), [readings, row]);
  const was = useMemo(() => truePositions(row), [row]);
  const batch = {
    id: scenario.id,
    startedAt: toInstant(truth[0]?.atMs ?? 0),
    progress: 0,
    phase: 'resting' as const,
    phaseReason: 'just-laid',
  };
  const when = text('page-practice.truth.when', { hourNumber: row.afterH, ...whenOf(row.atMs, reader) });
  const inside = text('page-practice.truth.inside', {
    hottestC: { valueC: row.hottestC, decimals: 0 },
    moistureFrac: row.moistureFrac,
    oxygenFrac: row.leastOxygenFrac,
    aliveFrac: row.aliveFrac,
  });
  return (
    <OwnTime.Provider value={{ nowMs: row.atMs, reader }}>
      <div class="two-piles">
        <figure>
          <figcaption>
            <h3>{text('page-practice.truth.said')}</h3>
          </figcaption>
          <Mound pile={{ id: scenario.id, stage: scenario.stage, positions: said, batch }} depthM={row.depthM} large />
        </figure>
        <figure>
          <figcaption>
            <h3>{text('page-practice.truth.was')}</h3>
          </figcaption>
          <Mound pile={{ id: scenario.id, stage: scenario.stage, positions: was, batch }} depthM={row.depthM} large />
        </figure>
      </div>
      <div class="hour-slider">
        <label for="hour-shown">
          <b>{when}.</b> {inside}
        </label>
        <input
          id="hour-shown"
          type="range"
          min={truth[0]?.afterH ?? 0}
          max={truth.at(-1)?.afterH ?? 0}
          step={1}
          value={row.afterH}
          aria-valuetext={`${when}. ${inside}`}
          onInput={(event) => onHour(Number(event.currentTarget.value))}
        />
      </div>
    </OwnTime.Provider>
  );
}
