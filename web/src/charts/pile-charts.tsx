/**
 * A pile's heat with the expected band, and whatever else probes measure beneath, over one span of time.
 *
 * Loaded only when a pile is opened, so that the home page stays light.
 */
import { useMemo, useState } from 'preact/hooks';
import type { PileDetail } from '../../../shared/contracts/piles.ts';
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { bandTexts } from '../../../shared/messages/made/en/band.ts';
import { rendererOf } from '../../../shared/messages/renderer.ts';
import { useReader } from '../data/live/use-installation.ts';
import { useList } from '../data/live/use-list.ts';
import { useSay } from '../data/live/use-say.ts';
import { usePrefs } from '../data/prefs.ts';
import { actName } from '../ui/format/act-name.ts';
import { chartTitle } from '../ui/format/quantity-words.ts';
import { formatTemp, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { capital, lowered } from '../ui/format/words.ts';
import { useShade } from '../ui/use-shade.ts';
import { gatherMarks } from './act-marks.ts';
import { bandOf, drawnAhead, fanOf, handPoints, type Line, linesOf, otherLines } from './chart-data.ts';
import { chartSummary } from './chart-summary.ts';
import { fanWords } from './fan-words.ts';
import { type ChartBand, LineChart } from './line-chart.tsx';
import { type ChartSpan, QuantityChart } from './quantity-chart.tsx';
import { Readout } from './readout.tsx';
import { useChartWords } from './use-chart-words.ts';
import './charts.css';

const renderBand = rendererOf(bandTexts);

interface PileChartsProps {
  readonly pile: PileDetail;
  readonly series: SeriesAnswer;
}

/** What the charts of a pile draw, in the unit of whoever reads. */
function useCharted({ pile, series }: PileChartsProps) {
  const { unit } = usePrefs();
  const shade = useShade();
  const reader = useReader(pile.site);
  const [instantMs, setInstantMs] = useState<number | null>(null);
  const heat = useMemo(() => linesOf(series, 'temperatureC'), [series]);
  const byHand = useMemo(() => handPoints(series), [series]);
  const band = useMemo(() => bandOf(series.expected.points), [series]);
  const ahead = useMemo(() => fanOf(series), [series]);
  const fan = useMemo(() => drawnAhead(ahead, series), [series]);
  const others = useMemo(() => otherLines(series), [series]);

  const inUnit = (value: number) => tempIn(unit, value);
  const readToMs = Date.parse(series.to);
  const span: ChartSpan = {
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
    pile.acts.map(({ at, kind }) => ({ atMs: Date.parse(at), words: lowered(actName(kind)) })),
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
  return {
    unit,
    reader,
    instantMs,
    heat,
    byHand,
    ahead,
    fan,
    others,
    inUnit,
    readToMs,
    span,
    act,
    acts,
    chartBand,
    chartFan,
  };
}

export default function PileCharts(props: PileChartsProps) {
  // On a phone warnings come next, and what else was measured is a tap away.
  const [isWide] = useState(() => matchMedia('(min-width: 46rem)').matches);
  const { pile, series } = props;
  const say = useSay(renderBand, pile.site);
  const words = useChartWords();
  const listed = useList();
  const { text } = words;
  const { unit, reader, instantMs, heat, byHand, ahead, fan, others, inUnit, readToMs, span, act, ...drawn } =
    useCharted(props);
  const aheadWords = fanWords(ahead, { nowMs: readToMs, unit }, words);

  return (
    <div class="charts">
      <figure class="plot">
        <figcaption>
          <h3>{text('page-chart.heat')}</h3>
          <Readout instantMs={instantMs} series={series} heat={heat} fan={fan} others={others} reader={reader} />
        </figcaption>
        <LineChart
          {...span}
          tall
          lines={[...byHand, ...heat].map((line) => inLine(line, inUnit))}
          band={drawn.chartBand}
          fan={drawn.chartFan}
          limit={
            act && {
              value: inUnit(act.value),
              words: text('page-chart.act', { actC: { valueC: act.value, decimals: 0 } }),
            }
          }
          acts={drawn.acts}
          unit="°"
          most={inUnit(52)}
          words={text('page-chart.heat.says', {
            unitText: unitSigns[unit],
            linesText: chartSummary([...heat, ...byHand], (value) => formatTemp(value, unit), reader, words),
            hasAhead: aheadWords !== undefined,
            aheadText: aheadWords ?? '',
          })}
        />
        {byHand.length > 0 && <p class="band-key">{text('page-chart.by-hand')}</p>}
        {drawn.chartBand.length > 0 && (
          <p class="band-key">
            <span class="band-swatch" aria-hidden="true" />{' '}
            {text('page-chart.expected', { originText: capital(say(series.expected.messages.origin)) })}
          </p>
        )}
        {fan.length > 0 && (
          <p class="band-key">
            <svg class="fan-swatch" viewBox="0 0 26 14" aria-hidden="true">
              <path d="M4 3V11M10 2V12M16 1V13M22 0V14" />
              <path class="fan-middle" d="M2 7H6M8 7H12M14 7H18M20 7H24" />
            </svg>{' '}
            {text('page-chart.ahead')}
          </p>
        )}
      </figure>
      {others.length > 0 && (
        <details class="other-charts" open={isWide}>
          <summary>{listed(others.map(({ quantity }) => chartTitle(quantity)))}</summary>
          {others.map(({ quantity, lines }) => (
            <QuantityChart key={quantity} quantity={quantity} lines={lines} span={span} />
          ))}
        </details>
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
