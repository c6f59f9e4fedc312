/** A small curve in a frame of 200 by 48, made of a pile's series. */
import type { SeriesAnswer } from '../../../../shared/contracts/series.ts';
import { msPerDay } from '../../../../shared/units.ts';

export interface CurveShape {
  /** Paths of SVG: what was measured, broken where nothing was, and the middle of what lies ahead. */
  readonly past: string;
  readonly ahead: string | undefined;
  readonly nowX: number;
  readonly limitY: number | undefined;
  readonly firstC: number;
  readonly lastC: number;
  /** A day ahead, where that is known. */
  readonly aheadC: number | undefined;
}

const [width, height, edge] = [200, 48, 3];
/** A quiet pile is a level line, not one of hills that are noise. */
const leastSpanK = 8;
/** A limit this far above all that is drawn would press the curve flat. */
const limitWithinK = 15;

/** @returns Undefined where the core was never measured in that time. */
export function curveShape(series: SeriesAnswer, limitC: number | undefined): CurveShape | undefined {
  const buckets = series.positions.core?.temperatureC ?? [];
  const measured = [
    ...buckets.map(({ at, mean }) => ({ atMs: Date.parse(at), tempC: mean })),
    ...(series.byHand ?? [])
      .filter(({ position }) => position === 'core')
      .map(({ at, temperatureC }) => ({ atMs: Date.parse(at), tempC: temperatureC })),
  ].sort((one, other) => one.atMs - other.atMs);
  const [first, last] = [measured[0], measured.at(-1)];
  if (!first || !last) return undefined;
  const ahead = (series.forecast?.points ?? []).map(({ at, p50 }) => ({ atMs: Date.parse(at), tempC: p50 }));
  const [fromMs, nowMs] = [Date.parse(series.from), Date.parse(series.to)];
  const toMs = ahead.length > 0 ? nowMs + msPerDay : nowMs;

  const tempsC = [...measured, ...ahead].map(({ tempC }) => tempC);
  const [lowC, highC] = [Math.min(...tempsC), Math.max(...tempsC)];
  const isLimitNear = limitC !== undefined && limitC - highC < limitWithinK;
  const topC = Math.max(highC, isLimitNear ? limitC : highC, lowC + leastSpanK);
  const x = (atMs: number) => round(((atMs - fromMs) / (toMs - fromMs || 1)) * width);
  const y = (tempC: number) => round(height - edge - ((tempC - lowC) / (topC - lowC)) * (height - 2 * edge));

  const brokenMs = Math.max(3 * series.bucketMs, hoursApart);
  const past = measured
    .map(({ atMs, tempC }, i) => {
      const before = measured[i - 1];
      const isJoined = before !== undefined && atMs - before.atMs <= brokenMs;
      return `${isJoined ? 'L' : 'M'}${x(atMs)} ${y(tempC)}`;
    })
    .join('');
  return {
    past,
    ahead:
      ahead.length === 0
        ? undefined
        : [last, ...ahead.filter(({ atMs }) => atMs > last.atMs)]
            .map(({ atMs, tempC }, i) => `${i === 0 ? 'M' : 'L'}${x(atMs)} ${y(tempC)}`)
            .join(''),
    nowX: x(nowMs),
    limitY: isLimitNear ? y(limitC) : undefined,
    firstC: first.tempC,
    lastC: last.tempC,
    aheadC: ahead.at(-1)?.tempC,
  };
}

/** A thermometer in a hand is looked at twice a day: its points are still one line. */
const hoursApart = 14 * 3_600_000;

const round = (value: number) => Math.round(value * 10) / 10;
