/** The run cut open along time: layers by heat, and what the probes said of heat and damp. */
import { useMemo } from 'preact/hooks';
import { type StageLimits, stageLimits } from '../../../../shared/stage.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { usePrefs } from '../../data/prefs.ts';
import { celsiusFrom, formatTemp, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { useWidth } from '../../ui/use-width.ts';
import { roundMarks, scaleOf } from './cut-drawing.ts';
import { CutFrame, CutLine, cut } from './cut-frame.tsx';
import { LayerCut } from './layer-cut.tsx';
import { saidByHour } from './said-and-so.ts';
import './cut-open.css';

interface CutOpenProps {
  readonly scenario: PracticeScenario;
  readonly debrief: Debrief;
  readonly startedAtMs: number;
  readonly afterH: number;
  readonly onHour: (afterH: number) => void;
}

/** What was so and what the probes said, hour by hour. */
function useLines({ truth, readings }: Debrief) {
  return useMemo(
    () => ({
      coreSaid: saidByHour(readings, truth, 'core', 'temperature'),
      airSaid: saidByHour(readings, truth, 'air', 'temperature'),
      humiditySaid: saidByHour(readings, truth, 'core', 'humidity').map(({ afterH, value }) => ({
        afterH,
        value: value === null ? null : Math.min(100, value),
      })),
      core: truth.map((row) => ({ afterH: row.afterH, value: row.coreC })),
      water: truth.map((row) => ({ afterH: row.afterH, value: 100 * row.moistureFrac })),
      alive: truth.map((row) => ({ afterH: row.afterH, value: 100 * row.aliveFrac })),
      work: truth.map((row) => ({ afterH: row.afterH, value: 100 * row.workFrac })),
    }),
    [truth, readings],
  );
}

type Lines = ReturnType<typeof useLines>;
type Frame = Pick<
  Parameters<typeof CutFrame>[0],
  'width' | 'x' | 'endH' | 'startedAtMs' | 'afterH' | 'onHour' | 'acts'
>;

interface CutProps {
  readonly lines: Lines;
  readonly frame: Frame;
  readonly limits: StageLimits;
}

export function CutOpen({ scenario, debrief, startedAtMs, afterH, onHour }: CutOpenProps) {
  const { place, width } = useWidth(640);
  const lines = useLines(debrief);
  const { truth } = debrief;
  // A run ended at once has one hour only, and a line needs a length.
  const endH = Math.max(1, truth.at(-1)?.afterH ?? 1);
  const x = scaleOf(0, endH, cut.left, width - cut.right);
  const limits = stageLimits[scenario.stage];
  const frame = { width, x, endH, startedAtMs, afterH, onHour, acts: debrief.acts };
  return (
    <div class="cut-open" ref={place}>
      <p class="hint cut-key">
        <svg width="34" height="10" aria-hidden="true">
          <path class="cut-so" d="M1 5h32" />
        </svg>{' '}
        what was so{' '}
        <svg width="34" height="10" aria-hidden="true">
          <path class="cut-said" d="M1 5h32" />
        </svg>{' '}
        what the probes said. Numbers are your acts, listed below.
      </p>
      <LayerCut {...frame} truth={truth} limitC={limits.actC} />
      <HeatCut lines={lines} frame={frame} limits={limits} />
      <WaterCut lines={lines} frame={frame} limits={limits} />
      <CultureCut lines={lines} frame={frame} />
    </div>
  );
}

const partY = scaleOf(0, 100, cut.height, 0);
const percent = (value: number) => `${value} %`;
const last = <T extends { value: number | null }>(points: readonly T[]) => points.at(-1)?.value ?? 0;

function HeatCut({ lines, frame, limits }: CutProps) {
  const { unit } = usePrefs();
  const { x, endH } = frame;
  const highestC = Math.max(
    55,
    ...lines.core.map(({ value }) => value),
    ...lines.coreSaid.map(({ value }) => value ?? 0),
  );
  const lowestC = Math.min(10, ...lines.airSaid.map(({ value }) => value ?? 10));
  const heatY = scaleOf(lowestC, highestC, cut.height, 0);
  const degrees = (tempC: number) => `${Math.round(tempIn(unit, tempC))}°`;
  return (
    <CutFrame
      {...frame}
      title={`Heat of the core, ${unitSigns[unit]}`}
      marks={roundMarks(tempIn(unit, lowestC), tempIn(unit, highestC), unit === 'F' ? 40 : 20).map((value) =>
        celsiusFrom(unit, value),
      )}
      y={heatY}
      say={degrees}
      words={`Heat of the core. It was at ${formatTemp(last(lines.core), unit, 0)} at the end; the core probe said ${formatTemp(last(lines.coreSaid), unit, 0)}.`}
      ends={[
        { words: 'core', y: heatY(last(lines.core)), class: 'cut-word-core' },
        { words: 'air', y: heatY(last(lines.airSaid)), class: 'cut-word-air' },
      ]}
    >
      <path class="cut-limit" d={`M${x(0)} ${heatY(limits.actC)}H${x(endH)}`} />
      <CutLine points={lines.airSaid} x={x} y={heatY} class="cut-air" />
      <CutLine points={lines.core} x={x} y={heatY} class="cut-so" />
      <CutLine points={lines.coreSaid} x={x} y={heatY} class="cut-said" />
    </CutFrame>
  );
}

function WaterCut({ lines, frame, limits }: CutProps) {
  const { x, endH } = frame;
  return (
    <CutFrame
      {...frame}
      title="Water in the pile, and humidity as said"
      marks={[0, 50, 100]}
      y={partY}
      say={percent}
      words={`Water in the pile. It ended at ${Math.round(last(lines.water))} %; the wanted band is ${Math.round(100 * limits.moistureMinFrac)} to ${Math.round(100 * limits.moistureMaxFrac)} %. Humidity in the core was said to be ${Math.round(last(lines.humiditySaid))} % at the end.`}
      ends={[
        { words: 'water', y: partY(last(lines.water)), class: 'cut-word-water' },
        { words: 'humidity', y: partY(last(lines.humiditySaid)), class: 'cut-word-said' },
      ]}
    >
      <rect
        class="cut-band"
        x={x(0)}
        width={x(endH) - x(0)}
        y={partY(100 * limits.moistureMaxFrac)}
        height={partY(100 * limits.moistureMinFrac) - partY(100 * limits.moistureMaxFrac)}
      />
      <CutLine points={lines.humiditySaid} x={x} y={partY} class="cut-said" />
      <CutLine points={lines.water} x={x} y={partY} class="cut-so cut-water" />
    </CutFrame>
  );
}

function CultureCut({ lines, frame }: Omit<CutProps, 'limits'>) {
  const { x } = frame;
  return (
    <CutFrame
      {...frame}
      title="Culture alive, and work done"
      marks={[0, 50, 100]}
      y={partY}
      say={percent}
      days
      words={`At the end ${Math.round(last(lines.alive))} % of the culture that grew was alive, and ${Math.round(last(lines.work))} % of the work was done.`}
      ends={[
        { words: 'alive', y: partY(last(lines.alive)), class: 'cut-word-alive' },
        { words: 'work', y: partY(last(lines.work)), class: 'cut-word-work' },
      ]}
    >
      <CutLine points={lines.work} x={x} y={partY} class="cut-so cut-work" />
      <CutLine points={lines.alive} x={x} y={partY} class="cut-so cut-alive" />
    </CutFrame>
  );
}
