/** What is written straight onto a chart: a limit, the acts, and each line's name at its end. */
import type { Chart, Plugin } from 'chart.js';
import { spreadRows } from '../ui/mound/mound-layout.ts';
import type { Mark } from './act-marks.ts';
import { drawFan, drawNow, type FanPoint } from './chart-fan.ts';

export interface ChartMarks {
  readonly limit: { readonly value: number; readonly words: string } | undefined;
  readonly acts: readonly Mark[];
  /** Which of the lines is the core's. */
  readonly coreName: string;
  /** The core's next hours; empty where none are shown. */
  readonly fan: readonly FanPoint[];
  /** Where the readings end, when the axis goes on beyond. */
  readonly nowMs: number | undefined;
  readonly font: { readonly family: string; readonly size: number };
  readonly colour: (token: string) => string;
}

/** Room that the words of acts need above the chart [px]. */
export const actRoom = 18;

/** Datasets of the band carry this name and get no label at their end. */
export const bandName = 'band';

export function chartMarks(read: () => ChartMarks): Plugin<'line'> {
  return {
    id: 'marks',
    beforeDatasetsDraw(chart) {
      const marks = read();
      drawActs(chart, marks);
      if (marks.nowMs !== undefined) drawNow(chart, marks.nowMs, marks.font, marks.colour);
    },
    afterDatasetsDraw(chart) {
      const marks = read();
      drawFan(chart, marks.fan, marks.colour);
      drawLimit(chart, marks);
      drawEnds(chart, marks);
    },
  };
}

function drawActs(chart: Chart<'line'>, { acts, font, colour }: ChartMarks): void {
  const { ctx, chartArea, scales } = chart;
  ctx.save();
  ctx.font = `${font.size}px ${font.family}`;
  ctx.textBaseline = 'bottom';
  for (const { atMs, words } of acts) {
    const x = scales.x?.getPixelForValue(atMs) ?? 0;
    ctx.strokeStyle = colour('--rule-strong');
    ctx.lineWidth = 1;
    ctx.beginPath();
    ctx.moveTo(x, chartArea.top - actRoom);
    ctx.lineTo(x, chartArea.bottom);
    ctx.stroke();
    // Near the right end the words stand before the mark, but never over the axis.
    const { width } = ctx.measureText(words);
    const fits = x + 6 + width < chartArea.right;
    ctx.fillStyle = colour('--ink-soft');
    ctx.fillText(words, fits ? x + 5 : Math.max(chartArea.left + 4, x - 5 - width), chartArea.top - 3);
  }
  ctx.restore();
}

function drawLimit(chart: Chart<'line'>, { limit, font, colour }: ChartMarks): void {
  const { ctx, chartArea, scales } = chart;
  const y = limit && scales.y?.getPixelForValue(limit.value);
  if (!limit || y === undefined || y < chartArea.top || y > chartArea.bottom) return;
  ctx.save();
  ctx.strokeStyle = colour('--heat');
  ctx.lineWidth = 1.25;
  ctx.setLineDash([6, 4]);
  ctx.beginPath();
  ctx.moveTo(chartArea.left, y);
  ctx.lineTo(chartArea.right, y);
  ctx.stroke();
  ctx.font = `${font.size}px ${font.family}`;
  ctx.textBaseline = 'bottom';
  ctx.fillStyle = colour('--heat');
  ctx.fillText(limit.words, chartArea.left + 4, y - 3);
  ctx.restore();
}

/** A day ahead narrower than this has no room for names between its strokes [px]. */
const roomInsidePx = 110;
/** About as long as the longest name [px]. */
const roomForNamePx = 40;

/**
 * A line's name where it ends, so that nobody needs to match colours with a legend. Where the axis goes on beyond now, the
 * core's name stands at the end of its day ahead and the others beside now.
 */
function drawEnds(chart: Chart<'line'>, { font, fan, nowMs, coreName, colour }: ChartMarks): void {
  const { ctx, chartArea, scales } = chart;
  const ends = chart.data.datasets.flatMap((dataset) => {
    if (dataset.label === bandName) return [];
    const last = (dataset.data as { x: number; y: number | null }[]).findLast((point) => point.y !== null);
    if (!last || last.y === null) return [];
    const y = scales.y?.getPixelForValue(last.y) ?? 0;
    return [{ words: dataset.label ?? '', y, colour: String(dataset.borderColor) }];
  });
  const right = chartArea.right + 7;
  const nowX = nowMs === undefined ? undefined : scales.x?.getPixelForValue(nowMs);
  const fanEnd = fan.at(-1);
  const core = fanEnd && ends.find((end) => end.words === coreName);
  if (core && fanEnd) core.y = scales.y?.getPixelForValue(fanEnd.mid) ?? core.y;
  // Where names would hide the first strokes all stand at the right, as without a fan.
  const strokes = fan.filter((at) => (scales.x?.getPixelForValue(at.atMs) ?? 0) < (nowX ?? 0) + roomForNamePx);
  const [strokesTop, strokesBottom] = [
    Math.min(...strokes.map((at) => scales.y?.getPixelForValue(at.high) ?? 0)),
    Math.max(...strokes.map((at) => scales.y?.getPixelForValue(at.low) ?? 0)),
  ];
  const isHidden = ends.some(
    (end) => end !== core && end.y > strokesTop - font.size && end.y < strokesBottom + font.size,
  );
  const isInside = nowX !== undefined && !isHidden && (fan.length === 0 || chartArea.right - nowX >= roomInsidePx);
  const beside = isInside ? nowX + 5 : right;
  const others = ends.filter((end) => !isInside || end !== core).sort((one, other) => one.y - other.y);
  const rows = spreadRows(
    others.map((end) => end.y),
    font.size + 3,
    chartArea.top + 4,
    chartArea.bottom,
  );
  ctx.save();
  ctx.font = `600 ${font.size}px ${font.family}`;
  ctx.textBaseline = 'middle';
  // Paper around the letters, since the strokes of the fan may run behind them.
  ctx.strokeStyle = colour('--paper');
  ctx.lineWidth = 4;
  ctx.lineJoin = 'round';
  const write = (words: string, x: number, y: number, ink: string) => {
    ctx.strokeText(words, x, y);
    ctx.fillStyle = ink;
    ctx.fillText(words, x, y);
  };
  others.forEach((end, i) => {
    write(end.words, beside, rows[i] ?? end.y, end.colour);
  });
  if (isInside && core) write(core.words, right, core.y, core.colour);
  ctx.restore();
}
