/** Lines over time on a canvas, with a band, a limit and the acts marked. */
import {
  Chart,
  type ChartConfiguration,
  Filler,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
} from 'chart.js';
import { useEffect, useRef } from 'preact/hooks';
import type { Shade } from '../ui/colour/heat-scale.ts';
import type { Reader } from '../ui/format/local-time.ts';
import { usePositionNames } from '../ui/mound/use-position-names.ts';
import type { Mark } from './act-marks.ts';
import type { Line } from './chart-data.ts';
import type { FanPoint } from './chart-fan.ts';
import { actRoom, bandName, chartMarks } from './chart-marks.ts';
import { lineStyles } from './line-style.ts';
import { timeTicks, withMidnights } from './time-ticks.ts';
import './charts.css';

Chart.register(LineController, LineElement, PointElement, LinearScale, Filler);

export interface ChartBand {
  readonly atMs: number;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

export interface LineChartProps {
  readonly fromMs: number;
  readonly toMs: number;
  readonly lines: readonly Line[];
  readonly band?: readonly ChartBand[];
  /** The core's next hours, drawn as strokes after `nowMs`. */
  readonly fan?: readonly FanPoint[];
  /** Where the readings end, when the axis goes on beyond. */
  readonly nowMs?: number | undefined;
  readonly limit?: { readonly value: number; readonly words: string } | undefined;
  readonly acts?: readonly Mark[];
  /** Shown beside each mark of the upright axis. */
  readonly unit: string;
  readonly least?: number;
  readonly most?: number;
  /** The axis ends here, above what may be marked on it. */
  readonly end?: number;
  readonly highestMark?: number | undefined;
  readonly words: string;
  readonly tall: boolean;
  readonly shade: Shade;
  readonly reader: Reader;
  readonly onInstant: (atMs: number | null) => void;
}

/** What it draws, with the names of its lines in the language that is read. */
type Drawn = LineChartProps & { readonly nameOf: ReturnType<typeof usePositionNames> };

export function LineChart(given: LineChartProps) {
  const props: Drawn = { ...given, nameOf: usePositionNames() };
  const canvas = useRef<HTMLCanvasElement>(null);
  const chart = useRef<Chart>(undefined);
  const latest = useRef(props);
  latest.current = props;

  useEffect(() => {
    if (!canvas.current) return;
    if (!chart.current) {
      chart.current = new Chart(canvas.current, configOf(canvas.current, latest));
      return;
    }
    const { data, options } = configOf(canvas.current, latest);
    chart.current.data = data;
    if (options) chart.current.options = options;
    chart.current.update('none');
  });
  useEffect(() => {
    const leave = () => latest.current.onInstant(null);
    canvas.current?.addEventListener('mouseleave', leave);
    return () => {
      canvas.current?.removeEventListener('mouseleave', leave);
      chart.current?.destroy();
    };
  }, []);

  return (
    <div class={props.tall ? 'chart chart-tall' : 'chart'}>
      <canvas ref={canvas} role="img" aria-label={props.words} />
    </div>
  );
}

interface Ink {
  readonly colour: (token: string) => string;
  readonly font: { readonly family: string; readonly size: number };
}

/** Colours and letters as the page has them where the canvas stands. */
function inkOf(canvas: HTMLCanvasElement): Ink {
  const style = getComputedStyle(canvas);
  return {
    colour: (token) => style.getPropertyValue(token).trim(),
    font: { family: style.fontFamily, size: 12.5 },
  };
}

/** Beside the lines, where their names stand; at most a third of a narrow phone. */
function roomForNames(canvas: HTMLCanvasElement, font: Ink['font'], datasets: Datasets): number {
  const ctx = canvas.getContext('2d');
  if (!ctx) return 46;
  ctx.font = `600 ${font.size}px ${font.family}`;
  const widths = datasets.map(({ label = '' }) => (label === bandName ? 0 : ctx.measureText(label).width));
  return Math.min(120, Math.max(46, Math.ceil(Math.max(...widths)) + 12));
}

type Datasets = ChartConfiguration<'line'>['data']['datasets'];
type Scales = NonNullable<NonNullable<ChartConfiguration<'line'>['options']>['scales']>;

const point = (atMs: number, value: number | null) => ({ x: atMs, y: value as number });

/** The first is drawn last, so the core lies over the other lines and all of them over the band. */
function datasetsOf({ lines, band = [], fan = [], nameOf }: Drawn, { colour }: Ink): Datasets {
  const edge = (pick: (at: ChartBand) => number) => ({
    label: bandName,
    data: band.map((at) => point(at.atMs, pick(at))),
    borderWidth: 0,
  });
  return [
    ...lines.map(({ position, points, arePoints = false }) => ({
      label: nameOf(position),
      data: points.map(({ atMs, value }) => point(atMs, value)),
      borderColor: colour(lineStyles[position].token),
      borderWidth: lineStyles[position].width,
      borderDash: arePoints ? [] : [...lineStyles[position].dash],
      ...(arePoints && {
        showLine: false,
        // A ring at the edge is whole.
        clip: 8,
        pointRadius: 4.5,
        pointBackgroundColor: colour('--paper'),
        pointBorderColor: colour(lineStyles[position].token),
        pointBorderWidth: 2,
      }),
    })),
    { ...edge((at) => at.mid), borderWidth: 1.25, borderColor: colour('--band-middle') },
    { ...edge((at) => at.high), fill: '+1', backgroundColor: colour('--band') },
    edge((at) => at.low),
    // Drawn as strokes by chart-marks.ts; here only so that the upright axis has room for them.
    ...[(at: FanPoint) => at.high, (at: FanPoint) => at.low].map((pick) => ({
      label: bandName,
      data: fan.map((at) => point(at.atMs, pick(at))),
      borderColor: 'transparent',
      borderWidth: 0,
    })),
  ];
}

function scalesOf(canvas: HTMLCanvasElement, props: LineChartProps, { colour, font }: Ink): Scales {
  const { fromMs, toMs, unit, least, most, end, highestMark = Number.POSITIVE_INFINITY, reader } = props;
  // A day's name needs about 72 px; what stands beside the axis takes about 110.
  const mostTicks = Math.max(2, Math.min(8, Math.floor((canvas.clientWidth - 110) / 72)));
  const ticks = withMidnights(timeTicks(fromMs, toMs, reader, mostTicks), fromMs, toMs, reader);
  return {
    x: {
      type: 'linear',
      min: fromMs,
      max: toMs,
      border: { color: colour('--rule-strong') },
      grid: { color: colour('--rule-strong'), drawOnChartArea: false, tickLength: 6 },
      afterBuildTicks: (axis) => {
        axis.ticks = ticks.map((tick) => ({ value: tick.atMs, major: tick.isDay }));
      },
      ticks: {
        font,
        color: colour('--ink-soft'),
        maxRotation: 0,
        autoSkip: false,
        callback: (_value, index) => ticks[index]?.label ?? '',
      },
    },
    y: {
      ...(least === undefined ? {} : { suggestedMin: least }),
      ...(most === undefined ? {} : { suggestedMax: most }),
      ...(end === undefined ? {} : { max: end }),
      border: { display: false },
      grid: { color: colour('--rule'), lineWidth: 1, drawTicks: false },
      ticks: {
        font,
        color: colour('--ink-soft'),
        padding: 8,
        maxTicksLimit: 7,
        includeBounds: end === undefined,
        callback: (value) => (Number(value) > highestMark ? '' : `${value}${unit}`),
      },
    },
  };
}

function configOf(canvas: HTMLCanvasElement, latest: { readonly current: Drawn }): ChartConfiguration<'line'> {
  const props = latest.current;
  const ink = inkOf(canvas);
  const datasets = datasetsOf(props, ink);
  return {
    type: 'line',
    data: { datasets },
    options: {
      parsing: false,
      normalized: true,
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      spanGaps: false,
      events: ['mousemove', 'touchstart', 'touchmove', 'click'],
      layout: {
        padding: {
          right: roomForNames(canvas, ink.font, datasets),
          top: actRoom((props.acts ?? []).length),
        },
      },
      elements: { point: { radius: 0, hitRadius: 0, hoverRadius: 0 }, line: { tension: 0, fill: false } },
      scales: scalesOf(canvas, props, ink),
      plugins: { filler: { drawTime: 'beforeDatasetsDraw' } },
      onHover: (event, _items, chart) => {
        const atMs = event.x === null ? undefined : chart.scales.x?.getValueForPixel(event.x);
        if (atMs !== undefined) latest.current.onInstant(atMs);
      },
    },
    plugins: [
      chartMarks(() => {
        const { limit, acts = [], fan = [], nowMs, nameOf } = latest.current;
        return { limit, acts, fan, nowMs, coreName: nameOf('core'), ...ink };
      }),
    ],
  };
}
