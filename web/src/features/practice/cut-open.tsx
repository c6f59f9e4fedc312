/** The run cut open along time: layers by heat, and what the probes said of heat and damp. */
import { useMemo } from 'preact/hooks';
import { type StageLimits, stageLimits } from '../../../../shared/stage.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { usePrefs } from '../../data/prefs.ts';
import { celsiusFrom, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import { useWidth } from '../../ui/use-width.ts';
import { roundMarks, scaleOf } from './cut-drawing.ts';
import { CutFrame, CutLine, cut } from './cut-frame.tsx';
import { LayerCut } from './layer-cut.tsx';
import { saidByHour } from './said-and-so.ts';
import { usePracticeWords } from './use-practice-words.ts';
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
  const { rich } = usePracticeWords();
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
        {rich('page-practice.cut.key', { so: () => <Stroke of="cut-so" />, said: () => <Stroke of="cut-said" /> })}
      </p>
      <LayerCut {...frame} truth={truth} limitC={limits.actC} />
      <HeatCut lines={lines} frame={frame} limits={limits} />
      <WaterCut lines={lines} frame={frame} limits={limits} />
      <CultureCut lines={lines} frame={frame} />
    </div>
  );
}

function Stroke({ of }: { readonly of: 'cut-so' | 'cut-said' }) {
  return (
    <svg width="34" height="10" aria-hidden="true">
      <path class={of} d="M1 5h32" />
    </svg>
  );
}

const partY = scaleOf(0, 100, cut.height, 0);
const percent = (value: number) => `${value} %`;
const last = <T extends { value: number | null }>(points: readonly T[]) => points.at(-1)?.value ?? 0;

function HeatCut({ lines, frame, limits }: CutProps) {
  const { unit } = usePrefs();
  const { text } = usePracticeWords();
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
      title={text('page-practice.cut.heat', { unitText: unitSigns[unit] })}
      marks={roundMarks(tempIn(unit, lowestC), tempIn(unit, highestC), unit === 'F' ? 40 : 20).map((value) =>
        celsiusFrom(unit, value),
      )}
      y={heatY}
      say={degrees}
      words={text('page-practice.cut.heat.aloud', {
        coreC: { valueC: last(lines.core), decimals: 0 },
        saidC: { valueC: last(lines.coreSaid), decimals: 0 },
      })}
      ends={[
        { words: text('page-practice.cut.heat.core'), y: heatY(last(lines.core)), class: 'cut-word-core' },
        { words: text('page-practice.cut.heat.air'), y: heatY(last(lines.airSaid)), class: 'cut-word-air' },
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
  const { text } = usePracticeWords();
  const { x, endH } = frame;
  return (
    <CutFrame
      {...frame}
      title={text('page-practice.cut.water')}
      marks={[0, 50, 100]}
      y={partY}
      say={percent}
      words={text('page-practice.cut.water.aloud', {
        moistureFrac: last(lines.water) / 100,
        leastFrac: limits.moistureMinFrac,
        mostFrac: limits.moistureMaxFrac,
        humidityFrac: last(lines.humiditySaid) / 100,
      })}
      ends={[
        { words: text('page-practice.cut.water.water'), y: partY(last(lines.water)), class: 'cut-word-water' },
        { words: text('page-practice.cut.water.humidity'), y: partY(last(lines.humiditySaid)), class: 'cut-word-said' },
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
  const { text } = usePracticeWords();
  const { x } = frame;
  return (
    <CutFrame
      {...frame}
      title={text('page-practice.cut.culture')}
      marks={[0, 50, 100]}
      y={partY}
      say={percent}
      days
      words={text('page-practice.cut.culture.aloud', {
        aliveFrac: last(lines.alive) / 100,
        workFrac: last(lines.work) / 100,
      })}
      ends={[
        { words: text('page-practice.cut.culture.alive'), y: partY(last(lines.alive)), class: 'cut-word-alive' },
        { words: text('page-practice.cut.culture.work'), y: partY(last(lines.work)), class: 'cut-word-work' },
      ]}
    >
      <CutLine points={lines.work} x={x} y={partY} class="cut-so cut-work" />
      <CutLine points={lines.alive} x={x} y={partY} class="cut-so cut-alive" />
    </CutFrame>
  );
}
