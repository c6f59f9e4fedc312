import { msPerHour } from '../../../shared/units.ts';
import { formatTemp, plainNumber, type TempUnit, tempIn } from '../ui/format/temperature.ts';
import type { BandAt } from './chart-data.ts';

/** Hours ahead at which the fan is put into words. */
const shownAfterH = [6, 12, 24] as const;

/** @example "In 6 h the core is most likely at 47 °C (44 to 50), in 12 h at 46 (42 to 50) …" */
export function fanWords(
  fan: readonly BandAt[],
  { nowMs, unit }: { readonly nowMs: number; readonly unit: TempUnit },
): string | undefined {
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  const points = shownAfterH.flatMap((afterH) => {
    const wantedMs = nowMs + afterH * msPerHour;
    const near = fan.reduce<BandAt | undefined>(
      (best, point) =>
        best === undefined || Math.abs(point.atMs - wantedMs) < Math.abs(best.atMs - wantedMs) ? point : best,
      undefined,
    );
    if (near === undefined || Math.abs(near.atMs - wantedMs) > 1.5 * msPerHour) return [];
    return [{ afterH, mid: near.midC, span: `${whole(near.lowC)} to ${whole(near.highC)}` }];
  });
  const [first, ...others] = points;
  if (first === undefined) return undefined;
  const rest = others.map(({ afterH, mid, span }) => `, in ${afterH} h at ${formatTemp(mid, unit, 0)} (${span})`);
  return `In ${first.afterH} h the core is most likely at ${formatTemp(first.mid, unit, 0)} (${first.span} in eight of ten cases)${rest.join('')}, if nobody touches it.`;
}
