/**
 * The core's next hours on a chart, as upright strokes with a dash at the middle of each.
 *
 * Strokes, not a tinted stripe: what was expected and what is ahead are distinguished by shape.
 */
import type { Chart } from 'chart.js';
import { textNow } from '../data/text-now.ts';

export interface FanPoint {
  readonly atMs: number;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/** Strokes nearer than this would close into a stripe [px]. */
const leastApartPx = 5.5;
const hourSteps = [1, 2, 3, 4, 6, 12];

/** Every so many hours a stroke, so that they stay apart. */
export function strokeEvery(hourPx: number): number {
  return hourSteps.find((step) => step * hourPx >= leastApartPx) ?? 24;
}

export function drawFan(chart: Chart<'line'>, fan: readonly FanPoint[], colour: (token: string) => string): void {
  const { ctx, chartArea, scales } = chart;
  const x = (atMs: number) => scales.x?.getPixelForValue(atMs) ?? 0;
  const y = (value: number) => scales.y?.getPixelForValue(value) ?? 0;
  const [first, second] = fan;
  if (!first || !second) return;
  const every = strokeEvery(x(second.atMs) - x(first.atMs));
  ctx.save();
  ctx.beginPath();
  // The last stroke stands on the edge, and is whole.
  ctx.rect(chartArea.left, chartArea.top, chartArea.right + 3 - chartArea.left, chartArea.bottom - chartArea.top);
  ctx.clip();
  ctx.strokeStyle = colour('--line-core');
  fan.forEach((point, i) => {
    if ((i + 1) % every !== 0) return;
    ctx.lineWidth = 1;
    ctx.beginPath();
    ctx.moveTo(x(point.atMs), y(point.low));
    ctx.lineTo(x(point.atMs), y(point.high));
    ctx.stroke();
    ctx.lineWidth = 2.5;
    ctx.beginPath();
    ctx.moveTo(x(point.atMs) - 2, y(point.mid));
    ctx.lineTo(x(point.atMs) + 2, y(point.mid));
    ctx.stroke();
  });
  ctx.restore();
}

/** Where the readings end and the day ahead begins. */
export function drawNow(
  chart: Chart<'line'>,
  nowMs: number,
  font: { readonly family: string; readonly size: number },
  colour: (token: string) => string,
): void {
  const { ctx, chartArea, scales } = chart;
  const x = scales.x?.getPixelForValue(nowMs) ?? 0;
  ctx.save();
  ctx.strokeStyle = colour('--rule-strong');
  ctx.lineWidth = 1;
  ctx.setLineDash([2, 3]);
  ctx.beginPath();
  ctx.moveTo(x, chartArea.top);
  ctx.lineTo(x, chartArea.bottom);
  ctx.stroke();
  ctx.font = `${font.size}px ${font.family}`;
  ctx.textBaseline = 'bottom';
  ctx.textAlign = 'right';
  ctx.strokeStyle = colour('--paper');
  ctx.lineWidth = 4;
  ctx.setLineDash([]);
  const now = textNow('page-words.now');
  ctx.strokeText(now, x - 4, chartArea.bottom - 3);
  ctx.fillStyle = colour('--ink-soft');
  ctx.fillText(now, x - 4, chartArea.bottom - 3);
  ctx.restore();
}
