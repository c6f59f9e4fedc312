/**
 * The next day of a pile's core in words. It never foresees a hand: every sentence holds only if nobody touches the
 * pile, and says so.
 */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { msPerHour } from '../../../../shared/units.ts';
import type { BandAt } from '../../charts/chart-data.ts';
import { chancesInTen, likelihoodName } from '../../ui/format/likelihood.ts';
import { nearTime, type Reader } from '../../ui/format/local-time.ts';
import { formatTemp, plainNumber, type TempUnit, tempIn } from '../../ui/format/temperature.ts';

export interface Told {
  readonly nowMs: number;
  readonly unit: TempUnit;
  readonly reader: Reader;
}

type OverLimit = NonNullable<PileDetail['judgement']>['overLimit'];

/** @param limitC the temperature at which to act; @param coreC the core now, null while it is not measured. */
export function overWords(over: OverLimit, limitC: number, coreC: number | null, told: Told): string {
  const limit = formatTemp(limitC, told.unit, 0);
  if (coreC !== null && coreC > limitC) return `It stands above ${limit} now.`;
  if (over === null) return `Whether it will reach ${limit} cannot be told yet.`;
  const { likelihood, at } = over;
  const name = likelihoodName(likelihood);
  const when = at === null ? 'within 12 hours' : aboutWhen(Date.parse(at), told);
  switch (name) {
    case 'very likely':
    case 'likely':
      return `It reaches ${limit} ${when}, ${name}: ${chancesInTen(likelihood)}.`;
    case 'about as likely as not':
      return `It may reach ${limit} ${when}: ${name}.`;
    case 'unlikely':
      return `It is unlikely to reach ${limit} in the next 12 hours${at === null ? '' : `; if it does, ${when}`}.`;
    case 'very unlikely':
      return `It is very unlikely to reach ${limit} in the next 12 hours.`;
  }
}

/** "in about 3 h (14:00)": the judge looks hour by hour, so the nearest hour is as fine as it knows. */
function aboutWhen(atMs: number, { nowMs, reader }: Told): string {
  const hours = Math.round((atMs - nowMs) / msPerHour);
  if (hours < 1) return 'within the hour';
  return `in about ${hours} h (${nearTime(atMs, nowMs, reader)})`;
}

/** Hours ahead at which the fan is told. */
const toldAfterH = [6, 12, 24] as const;

/** @example "In 6 h the core is most likely at 47 °C (44 to 50), in 12 h at 46 (42 to 50) …" */
export function fanWords(fan: readonly BandAt[], { nowMs, unit }: Pick<Told, 'nowMs' | 'unit'>): string | undefined {
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  const told = toldAfterH.flatMap((afterH) => {
    const wantedMs = nowMs + afterH * msPerHour;
    const near = fan.reduce<BandAt | undefined>(
      (best, point) =>
        best === undefined || Math.abs(point.atMs - wantedMs) < Math.abs(best.atMs - wantedMs) ? point : best,
      undefined,
    );
    if (near === undefined || Math.abs(near.atMs - wantedMs) > 1.5 * msPerHour) return [];
    return [{ afterH, mid: near.midC, span: `${whole(near.lowC)} to ${whole(near.highC)}` }];
  });
  const [first, ...others] = told;
  if (first === undefined) return undefined;
  const rest = others.map(({ afterH, mid, span }) => `, in ${afterH} h at ${formatTemp(mid, unit, 0)} (${span})`);
  return `In ${first.afterH} h the core is most likely at ${formatTemp(first.mid, unit, 0)} (${first.span} in eight of ten cases)${rest.join('')}, if nobody touches it.`;
}
