/**
 * The water in a bed, how sure that is, and how much more it could take, in words. It never tells more than the bed
 * holds: the judge holds back, rounding only takes away, and water cannot be taken out.
 */
import { hazardStands } from '../../../../core/alarms/precedence.ts';
import { speaks } from '../../../../core/alarms/standing.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { plainNumber } from '../../ui/format/temperature.ts';

type Moisture = NonNullable<NonNullable<PileDetail['batch']>['moisture']>;
type WaterToAdd = NonNullable<PileDetail['judgement']>['waterToAdd'];
export interface MoistureBand {
  readonly minFrac: number;
  readonly maxFrac: number;
}

const whole = (frac: number) => Math.round(Math.min(1, Math.max(0, frac)) * 100);

/** The band of the stage as this batch has it; undefined where the limits do not say. */
export function moistureBand(limits: PileDetail['limits']): MoistureBand | undefined {
  const [minFrac, maxFrac] = [limits.moistureMinFrac?.value, limits.moistureMaxFrac?.value];
  return minFrac === undefined || maxFrac === undefined ? undefined : { minFrac, maxFrac };
}

/** @example "About 46 % water by weight, likely between 42 and 50 %." */
export function moistureWords({ frac, sdFrac }: Moisture): string {
  return `About ${whole(frac)} % water by weight, likely between ${whole(frac - sdFrac)} and ${whole(frac + sdFrac)} %.`;
}

/** Where that stands in the band, as far as the doubt lets it be said. */
export function moistureStand({ frac, sdFrac }: Moisture, { minFrac, maxFrac }: MoistureBand): string {
  const band = `The culture wants ${whole(minFrac)} to ${whole(maxFrac)} %`;
  if (frac + sdFrac < minFrac) return `${band}, so it is too dry.`;
  if (frac < minFrac) return `${band}, so it is likely too dry.`;
  if (frac - sdFrac > maxFrac) return `${band}, so it is too wet.`;
  if (frac > maxFrac) return `${band}, so it is likely too wet.`;
  if (frac - sdFrac < minFrac) return `${band}; it may be getting dry.`;
  return frac + sdFrac > maxFrac ? `${band}; it may be on the wet side.` : `${band}, so it is well within.`;
}

/** Rounded down to what a watering can measures: tenths, halves, whole litres, fives. */
export function measurable(litres: number): number {
  const step = litres < 1 ? 0.1 : litres < 10 ? 0.5 : litres < 100 ? 1 : 5;
  // A tenth is not exact in binary: 0.3 / 0.1 is a little below 3.
  return Number((Math.floor(litres / step + 1e-9) * step).toFixed(1));
}

/** What to do with water while a warning says otherwise than the balance may; null while none does. */
export function handWateringWords(alarms: PileDetail['alarms']): string[] | null {
  if (hazardStands(alarms))
    return ['Give it no water now: the self-heating hazard stands, and its advice comes before everything else.'];
  const stands = (kind: WarningKind) => alarms.some((alarm) => alarm.kind === kind && speaks(alarm));
  if (stands('hand-wet')) return ['Give it no water: by hand it is too wet, and the hand counts before the balance.'];
  if (!stands('hand-dry')) return null;
  return [
    'By hand it is too dry, and the hand counts before the balance.',
    'What to do about it stands with the warning “Too dry by hand”.',
  ];
}

const said = (litres: number) => `${plainNumber(litres, Number.isInteger(litres) ? 0 : 1)} L`;

/** How much water, in which goes. The squeeze between the goes is common practice, no source. */
export function wateringWords(water: WaterToAdd, frac: number | undefined, band: MoistureBand | undefined): string[] {
  if (water === null) return ['By the balance it needs no water now.'];
  const litres = measurable(water.litres ?? water.litresPer10Kg);
  const of = water.litres === null ? ' for each 10 kg of the bed' : '';
  if (litres === 0) return ['By the balance it needs no water worth measuring now.'];
  const goal = `which would bring it to ${whole(water.toFrac)} %`;
  if (band && frac !== undefined && frac >= band.minFrac) {
    return [
      `It needs no water now. Should a squeezed handful crumble, it could take at most about ${said(litres)}${of}, ${goal}.`,
    ];
  }
  const half = measurable(litres / 2);
  const first = half === 0 ? 'a little of it' : `about ${said(half)}${of}`;
  return [
    `Add about ${said(litres)}${of} and not more, ${goal}.`,
    `Half of it first: ${first}. Mix it in, wait a quarter of an hour, squeeze a handful from the core. Give the rest only if it still crumbles.`,
  ];
}
