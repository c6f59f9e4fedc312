/**
 * A pile's heat with the expected band, and its damp beneath, over one span of time.
 *
 * Loaded only when a pile is opened, so that the home page stays light.
 */
import { useMemo, useState } from 'preact/hooks';
import { actKindSchema } from '../../../shared/contracts/domain/batch.ts';
import type { PileDetail } from '../../../shared/contracts/piles.ts';
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { bandTexts } from '../../../shared/messages/made/en/band.ts';
import { rendererOf } from '../../../shared/messages/renderer.ts';
import { useReader } from '../data/live/use-installation.ts';
import { useSay } from '../data/live/use-say.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime } from '../ui/format/local-time.ts';
import { formatTemp, plainNumber, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { actNames, capital, positionNames } from '../ui/format/words.ts';
import { soilProbeHint, soilProbeWords } from '../ui/mound/mound-facts.ts';
import { useShade } from '../ui/use-shade.ts';
import { gatherMarks } from './act-marks.ts';
import { type BandAt, bandAt, bandOf, fanOf, type Line, linesOf, valueNear } from './chart-data.ts';
import { chartSummary } from './chart-summary.ts';
import { fanWords } from './fan-words.ts';
import { type ChartBand, LineChart } from './line-chart.tsx';
import './charts.css';

const renderBand = rendererOf(bandTexts);

interface PileChartsProps {
  readonly pile: PileDetail;
  readonly series: SeriesAnswer;
}

export default function PileCharts({ pile, series }: PileChartsProps) {
  const { unit } = usePrefs();
  const shade = useShade();
  const reader = useReader(pile.site);
  const say = useSay(renderBand, pile.site);
  const [instantMs, setInstantMs] = useState<number | null>(null);
  const heat = useMemo(() => linesOf(series, 'temperatureC'), [series]);
  const band = useMemo(() => bandOf(series.expected.points), [series]);
  const fan = useMemo(() => fanOf(series), [series]);
  const damp = useMemo(() => linesOf(series, 'humidityPct'), [series]);
  const soil = useMemo(() => linesOf(series, 'moisturePct'), [series]);
  const gas = useMemo(() => linesOf(series, 'co2Ppm'), [series]);

  const inUnit = (value: number) => tempIn(unit, value);
  const readToMs = Date.parse(series.to);
  const span = {
    fromMs: Date.parse(series.from),
    // All charts keep one axis of time, so that they can be read one under the other.
    toMs: fan.at(-1)?.atMs ?? readToMs,
    nowMs: fan.length > 0 ? readToMs : undefined,
    shade,
    reader,
    onInstant: setInstantMs,
  };
  const act = pile.limits.actC;
  const acts = gatherMarks(
    pile.acts.map(({ at, kind }) => ({ atMs: Date.parse(at), words: actWords(kind) })),
    span.fromMs,
    span.toMs,
  );
  const chartBand: ChartBand[] = band
    .filter(({ atMs }) => atMs >= span.fromMs && atMs <= span.toMs)
    .map(({ atMs, lowC, midC, highC }) => ({ atMs, low: inUnit(lowC), mid: inUnit(midC), high: inUnit(highC) }));
  const chartFan = fan.map(({ atMs, lowC, midC, highC }) => ({
    atMs,
    low: inUnit(lowC),
    mid: inUnit(midC),
    high: inUnit(highC),
  }));
  const aheadWords = fanWords(fan, { nowMs: readToMs, unit });
  const percent = (value: number) => `${plainNumber(value, 0)} %`;

  return (
    <div class="charts">
      <figure class="plot">
        <figcaption>
          <h3>Heat</h3>
          <Readout
            instantMs={instantMs}
            series={series}
            heat={heat}
            fan={fan}
            damp={damp}
            soil={soil}
            reader={reader}
          />
        </figcaption>
        <LineChart
          {...span}
          tall
          lines={heat.map((line) => inLine(line, inUnit))}
          band={chartBand}
          fan={chartFan}
          limit={act && { value: inUnit(act.value), words: `spread or turn at ${formatTemp(act.value, unit, 0)}` }}
          acts={acts}
          unit="°"
          most={inUnit(52)}
          words={`Temperature in ${unitSigns[unit]} over time. ${chartSummary(heat, (value) => formatTemp(value, unit), reader)}${aheadWords ? ` Ahead: ${aheadWords}` : ''}`}
        />
        {chartBand.length > 0 && (
          <p class="band-key">
            <span class="band-swatch" aria-hidden="true" /> expected: the core in eight of ten cases.{' '}
            {capital(say(series.expected.messages.origin))}.
          </p>
        )}
        {fan.length > 0 && (
          <p class="band-key">
            <svg class="fan-swatch" viewBox="0 0 26 14" aria-hidden="true">
              <path d="M4 3V11M10 2V12M16 1V13M22 0V14" />
              <path class="fan-middle" d="M2 7H6M8 7H12M14 7H18M20 7H24" />
            </svg>{' '}
            ahead: the core’s next 24 hours in eight of ten cases, if nobody touches the pile; the dash on each stroke
            is the middle.
          </p>
        )}
      </figure>
      {damp.length > 0 && (
        <figure class="plot">
          <figcaption>
            <h3>Humidity</h3>
          </figcaption>
          <LineChart
            {...span}
            tall={false}
            lines={damp}
            unit=" %"
            end={105}
            words={`Relative humidity over time. ${chartSummary(damp, percent, reader)}`}
          />
          <p class="hint">
            The air inside a damp pile stays near 100 % long after it has begun to dry, so humidity warns of drying
            late.
          </p>
        </figure>
      )}
      {soil.length > 0 && (
        <figure class="plot">
          <figcaption>
            <h3>Moisture by soil probes, per cent of volume</h3>
          </figcaption>
          <LineChart
            {...span}
            tall={false}
            lines={soil}
            unit=" %"
            least={0}
            words={`Moisture by soil probes, in per cent of volume, over time. ${chartSummary(soil, percent, reader)}`}
          />
          <p class="hint">{soilProbeHint}</p>
        </figure>
      )}
      {gas.length > 0 && (
        <figure class="plot">
          <figcaption>
            <h3>Carbon dioxide</h3>
          </figcaption>
          <LineChart
            {...span}
            tall={false}
            lines={gas}
            unit=" ppm"
            least={0}
            words={`Carbon dioxide over time. ${chartSummary(gas, (value) => `${Math.round(value)} ppm`, reader)}`}
          />
        </figure>
      )}
    </div>
  );
}

function inLine(line: Line, turn: (value: number) => number): Line {
  return {
    ...line,
    points: line.points.map(({ atMs, value }) => ({ atMs, value: value === null ? null : turn(value) })),
  };
}

function actWords(kind: string): string {
  const known = actKindSchema.safeParse(kind);
  return (known.success ? actNames[known.data] : kind).toLowerCase();
}

interface ReadoutProps {
  readonly instantMs: number | null;
  readonly series: SeriesAnswer;
  readonly heat: readonly Line[];
  readonly fan: readonly BandAt[];
  readonly damp: readonly Line[];
  readonly soil: readonly Line[];
  readonly reader: ReturnType<typeof useReader>;
}

/** What stood at the instant under the finger or pointer. */
function Readout({ instantMs, series, heat, fan, damp, soil, reader }: ReadoutProps) {
  const { unit } = usePrefs();
  if (instantMs === null) return <p class="readout quiet">Point at the chart to read it off.</p>;
  const withinMs = 2 * series.bucketMs;
  const expected = bandAt(bandOf(series.expected.points), instantMs);
  const values = heat.flatMap(({ position, points }) => {
    const value = valueNear(points, instantMs, withinMs);
    return value === undefined ? [] : [`${positionNames[position]} ${formatTemp(value, unit)}`];
  });
  const dampValues = damp.flatMap(({ position, points }) => {
    const value = valueNear(points, instantMs, withinMs);
    return value === undefined ? [] : [`${positionNames[position]} ${plainNumber(value, 0)} %`];
  });
  const soilValues = soil.flatMap(({ position, points }) => {
    const value = valueNear(points, instantMs, withinMs);
    return value === undefined ? [] : [`${positionNames[position]} ${soilProbeWords(value)}`];
  });
  const band = expected
    ? [`expected ${plainNumber(tempIn(unit, expected.lowC), 0)} to ${formatTemp(expected.highC, unit, 0)}`]
    : [];
  const point = bandAt(fan, instantMs);
  const ahead = point
    ? [
        `ahead ${plainNumber(tempIn(unit, point.lowC), 0)} to ${formatTemp(point.highC, unit, 0)}, most likely ${formatTemp(point.midC, unit, 0)}`,
      ]
    : [];
  return (
    <p class="readout">
      <b>{dayAndTime(instantMs, reader)}</b>{' '}
      {[...values, ...band, ...ahead, ...dampValues, ...soilValues].join(' · ') || 'nothing read'}
    </p>
  );
}
