import { msPerHour } from '../../../shared/units.ts';
import { plainNumber, type TempUnit, tempIn } from '../ui/format/temperature.ts';
import type { BandAt } from './chart-data.ts';
import type { ChartWords } from './use-chart-words.ts';

/** Hours ahead at which the fan is put into words. */
const shownAfterH = [6, 12, 24] as const;

/** @example "In 6 h the core is most likely at 47 °C (44 to 50), in 12 h at 46 (42 to 50) …" */
export function fanWords(
  fan: readonly BandAt[],
  { nowMs, unit }: { readonly nowMs: number; readonly unit: TempUnit },
  { text }: Pick<ChartWords, 'text'>,
): string | undefined {
  const wholeC = (valueC: number) => ({ valueC, decimals: 0 }) as const;
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  const points = shownAfterH.flatMap((afterH) => {
    const wantedMs = nowMs + afterH * msPerHour;
    const near = fan.reduce<BandAt | undefined>(
      (best, point) =>
        best === undefined || Math.abs(point.atMs - wantedMs) < Math.abs(best.atMs - wantedMs) ? point : best,
      undefined,
    );
    if (near === undefined || Math.abs(near.atMs - wantedMs) > 1.5 * msPerHour) return [];
    const { lowC, midC, highC } = near;
    return [{ afterH, midC: wholeC(midC), lowText: whole(lowC), highText: whole(highC) }];
  });
  const [first, ...others] = points;
  if (first === undefined) return undefined;
  const laterText = others.reduce(
    (beforeText, { afterH, midC, lowText, highText }) =>
      text('page-chart.fan.later', { beforeText, laterHours: afterH, laterC: midC, lowText, highText }),
    '',
  );
  return text('page-chart.fan', {
    firstHours: first.afterH,
    firstC: first.midC,
    firstLowText: first.lowText,
    firstHighText: first.highText,
    laterText,
  });
}
