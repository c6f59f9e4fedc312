/** Where curves laid over each other stand in a drawing. */
import { type AlignBy, zeroHour } from '../../../../core/seasons/align.ts';
import type { AgedCurve } from '../../../../shared/contracts/seasons.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Frame {
  /** Hours from the common zero. */
  readonly fromH: number;
  readonly toH: number;
  readonly lowC: number;
  readonly highC: number;
}

export type Which = 'coreC' | 'airC';

/** Holds every value of every curve, out to whole days and tens of degrees; undefined when nothing was measured. */
export function frameOf(curves: readonly AgedCurve[], by: AlignBy, which: Which): Frame | undefined {
  let [fromH, toH, lowC, highC] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const curve of curves) {
    const zero = zeroHour(curve, by);
    if (zero === null) continue;
    for (const [hour, value] of curve[which].entries()) {
      if (value === null) continue;
      fromH = Math.min(fromH, hour - zero);
      toH = Math.max(toH, hour - zero);
      lowC = Math.min(lowC, value);
      highC = Math.max(highC, value);
    }
  }
  if (lowC > highC) return undefined;
  return {
    fromH: Math.floor(fromH / 24) * 24,
    toH: Math.max(24, Math.ceil(toH / 24) * 24),
    lowC: Math.floor(lowC / 10) * 10,
    highC: Math.max(Math.floor(lowC / 10) * 10 + 10, Math.ceil(highC / 10) * 10),
  };
}

export function xOf(hour: number, { fromH, toH }: Frame, { left, right, width }: Size): number {
  return left + ((hour - fromH) / (toH - fromH)) * (width - left - right);
}

export function yOf(tempC: number, { lowC, highC }: Frame, { top, bottom, height }: Size): number {
  return top + ((highC - tempC) / (highC - lowC)) * (height - top - bottom);
}

/** Broken where nothing was measured; empty when the curve has no zero to stand by. */
export function pathOf(curve: AgedCurve, by: AlignBy, which: Which, frame: Frame, size: Size): string {
  const zero = zeroHour(curve, by);
  if (zero === null) return '';
  let path = '';
  let broken = true;
  for (const [hour, value] of curve[which].entries()) {
    if (value === null) broken = true;
    else {
      path += `${broken ? 'M' : 'L'}${xOf(hour - zero, frame, size).toFixed(1)} ${yOf(value, frame, size).toFixed(1)}`;
      broken = false;
    }
  }
  return path;
}

export interface Nearest {
  readonly id: string;
  /** Hours from the common zero. */
  readonly hour: number;
  readonly tempC: number;
}

/** The core curve nearest to a place in the drawing, not further than 40 of its units up or down. */
export function nearestTo(
  curves: readonly AgedCurve[],
  by: AlignBy,
  frame: Frame,
  size: Size,
  x: number,
  y: number,
): Nearest | null {
  const share = (x - size.left) / (size.width - size.left - size.right);
  const hour = Math.round(frame.fromH + share * (frame.toH - frame.fromH));
  let best: (Nearest & { away: number }) | null = null;
  for (const curve of curves) {
    const zero = zeroHour(curve, by);
    const tempC = zero === null ? null : (curve.coreC[zero + hour] ?? null);
    if (tempC === null) continue;
    const away = Math.abs(yOf(tempC, frame, size) - y);
    if (away <= 40 && (best === null || away < best.away)) best = { id: curve.id, hour, tempC, away };
  }
  return best && { id: best.id, hour: best.hour, tempC: best.tempC };
}

/** Whole days on the axis, so many that they do not touch. */
export function dayMarks({ fromH, toH }: Frame, room: number): number[] {
  const days = Array.from({ length: (toH - fromH) / 24 + 1 }, (_, i) => fromH / 24 + i);
  const every = Math.max(1, Math.ceil(days.length / Math.max(2, Math.floor(room / 44))));
  return days.filter((day) => day % every === 0);
}

export function tens({ lowC, highC }: Frame): number[] {
  return Array.from({ length: (highC - lowC) / 10 + 1 }, (_, i) => lowC + 10 * i);
}
