/** What is written straight onto a chart: a limit, the acts, and each line's name at its end. */
import type { Chart, Plugin } from 'chart.js';
import type { Mark } from './act-marks.ts';
import { placeActs } from './act-words.ts';
import { drawFan, drawNow, type FanPoint } from './chart-fan.ts';
import { type EndLabel, type LineEnd, lastEnds, placeEnds } from './end-labels.ts';

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

/** Height of a row of words above the chart [px]. */
const actRowPx = 16;
/** Room that the words of so many acts need above the chart [px]. */
export const actRoom = (count: number): number => (count === 0 ? 8 : (count === 1 ? 1 : 2) * actRowPx + 6);

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
  ctx.strokeStyle = colour('--rule-strong');
  ctx.fillStyle = colour('--ink-soft');
  ctx.lineWidth = 1;
  const marks = acts.map(({ atMs, words }) => ({
    x: scales.x?.getPixelForValue(atMs) ?? 0,
    width: ctx.measureText(words).width,
  }));
  placeActs(marks, chartArea.left + 4, chartArea.right).forEach(({ x, row }, index) => {
    const markX = marks[index]?.x ?? 0;
    ctx.beginPath();
    ctx.moveTo(markX, chartArea.top - ((row ?? 0) + 1) * actRowPx);
    ctx.lineTo(markX, chartArea.bottom);
    ctx.stroke();
    if (row !== null) ctx.fillText(acts[index]?.words ?? '', x, chartArea.top - row * actRowPx - 3);
  });
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

/** A day ahead narrower than this has no room for names above or below its strokes [px]. */
const roomInsidePx = 44;
/** About as long as the longest name [px]. */
const roomForNamePx = 40;

/**
 * A line's name where it ends, so that nobody needs to match colours with a legend. Where the axis goes on beyond now, the
 * core's name stands at the end of its day ahead and the others beside now.
 */
function drawEnds(chart: Chart<'line'>, { font, fan, nowMs, coreName, colour }: ChartMarks): void {
  const { ctx, chartArea, scales } = chart;
  const ends: { -readonly [Key in keyof LineEnd]: LineEnd[Key] }[] = lastEnds(
    chart.data.datasets.flatMap((dataset) => {
      if (dataset.label === bandName) return [];
      const last = (dataset.data as { x: number; y: number | null }[]).findLast((point) => point.y !== null);
      if (!last || last.y === null) return [];
      const [x, y] = [scales.x?.getPixelForValue(last.x) ?? 0, scales.y?.getPixelForValue(last.y) ?? 0];
      return [{ words: dataset.label ?? '', x, y, colour: String(dataset.borderColor) }];
    }),
  );
  const right = chartArea.right + 7;
  const nowX = nowMs === undefined ? undefined : scales.x?.getPixelForValue(nowMs);
  const fanEnd = fan.at(-1);
  const core = fanEnd && ends.find((end) => end.words === coreName);
  if (core && fanEnd) {
    core.x = scales.x?.getPixelForValue(fanEnd.atMs) ?? core.x;
    core.y = scales.y?.getPixelForValue(fanEnd.mid) ?? core.y;
  }
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
  const named = ends.filter((end) => !isInside || end !== core);
  const room = {
    x: beside,
    endX: nowX ?? chartArea.right,
    top: chartArea.top + 4,
    bottom: chartArea.bottom,
    gap: font.size + 3,
  };
  const labels = placeEnds(named, room);
  ctx.save();
  ctx.font = `600 ${font.size}px ${font.family}`;
  ctx.textBaseline = 'middle';
  drawJoins(ctx, labels);
  // Paper around the letters, since the strokes of the fan may run behind them.
  ctx.strokeStyle = colour('--paper');
  ctx.lineWidth = 4;
  ctx.lineJoin = 'round';
  const write = (words: string, x: number, y: number, ink: string) => {
    // A name longer than its room is set narrower, never cut.
    const most = Math.max(20, chart.width - x - 2);
    ctx.strokeText(words, x, y, most);
    ctx.fillStyle = ink;
    ctx.fillText(words, x, y, most);
  };
  for (const label of labels) write(label.words, label.labelX, label.labelY, label.colour);
  if (isInside && core) write(core.words, right, core.y, core.colour);
  ctx.restore();
}

function drawJoins(ctx: CanvasRenderingContext2D, labels: readonly EndLabel[]): void {
  ctx.lineWidth = 1;
  ctx.setLineDash([1, 5]); // a stroke would read as what lies ahead
  for (const { x, y, labelX, labelY, isJoined, colour } of labels) {
    if (!isJoined) continue;
    ctx.strokeStyle = colour;
    ctx.beginPath();
    ctx.moveTo(Math.min(x, labelX - 4), y);
    ctx.lineTo(labelX - 2, labelY);
    ctx.stroke();
  }
  ctx.setLineDash([]);
}
