/**
 * The water in a bed, how sure that is, and how much more it could take, in words. It never tells more than the bed
 * holds: the judge holds back, rounding only takes away, and water cannot be taken out.
 */
import { hazardStands } from '../../../../core/alarms/precedence.ts';
import { speaks } from '../../../../core/alarms/standing.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import type { PileWords } from './use-pile-words.ts';

type Moisture = NonNullable<NonNullable<PileDetail['batch']>['moisture']>;
type WaterToAdd = NonNullable<PileDetail['judgement']>['waterToAdd'];
export interface MoistureBand {
  readonly minFrac: number;
  readonly maxFrac: number;
}

const bounded = (frac: number) => Math.min(1, Math.max(0, frac));

/** The band of the stage as this batch has it; undefined where the limits do not say. */
export function moistureBand(limits: PileDetail['limits']): MoistureBand | undefined {
  const [minFrac, maxFrac] = [limits.moistureMinFrac?.value, limits.moistureMaxFrac?.value];
  return minFrac === undefined || maxFrac === undefined ? undefined : { minFrac, maxFrac };
}

/** @example "About 46 % water by weight, likely between 42 % and 50 %." */
export function moistureWords({ frac, sdFrac }: Moisture, { text }: PileWords): string {
  const params = { waterFrac: bounded(frac), lowFrac: bounded(frac - sdFrac), highFrac: bounded(frac + sdFrac) };
  return text('page-pile.water.about', params);
}

/** Where that stands in the band, as far as the doubt lets it be said. */
export function moistureStand(moisture: Moisture, band: MoistureBand, { text }: PileWords): string {
  return text('page-pile.water.stand', { ...band, stand: standOf(moisture, band) });
}

function standOf({ frac, sdFrac }: Moisture, { minFrac, maxFrac }: MoistureBand) {
  if (frac + sdFrac < minFrac) return 'dry';
  if (frac < minFrac) return 'likelyDry';
  if (frac - sdFrac > maxFrac) return 'wet';
  if (frac > maxFrac) return 'likelyWet';
  if (frac - sdFrac < minFrac) return 'drying';
  return frac + sdFrac > maxFrac ? 'wetting' : 'other';
}

/** Rounded down to what a watering can measures: tenths, halves, whole litres, fives. */
export function measurable(litres: number): number {
  const step = litres < 1 ? 0.1 : litres < 10 ? 0.5 : litres < 100 ? 1 : 5;
  // A tenth is not exact in binary: 0.3 / 0.1 is a little below 3.
  return Number((Math.floor(litres / step + 1e-9) * step).toFixed(1));
}

/** What to do with water while a warning says otherwise than the balance may; null while none does. */
export function handWateringWords(alarms: PileDetail['alarms'], { text }: PileWords): string[] | null {
  if (hazardStands(alarms)) return [text('page-pile.water.hazard')];
  const stands = (kind: WarningKind) => alarms.some((alarm) => alarm.kind === kind && speaks(alarm));
  if (stands('hand-wet')) return [text('page-pile.water.hand-wet')];
  return stands('hand-dry') ? [text('page-pile.water.hand-dry'), text('page-pile.water.hand-dry.todo')] : null;
}

/** As many figures as a watering can has. */
const amount = (litres: number) => ({ value: litres, figures: 6 });

/** How much water, in which goes. The squeeze between the goes is common practice, no source. */
export function wateringWords(
  water: WaterToAdd,
  frac: number | undefined,
  band: MoistureBand | undefined,
  { text }: PileWords,
): string[] {
  if (water === null) return [text('page-pile.water.none')];
  const litres = measurable(water.litres ?? water.litresPer10Kg);
  if (litres === 0) return [text('page-pile.water.trace')];
  const bed = { perTen: water.litres === null, bedKg: 10 };
  const given = { ...bed, givenL: amount(litres), toFrac: water.toFrac };
  if (band && frac !== undefined && frac >= band.minFrac) return [text('page-pile.water.could-take', given)];
  const half = measurable(litres / 2);
  return [
    text('page-pile.water.add', given),
    text('page-pile.water.half', { ...bed, isTrace: half === 0, halfL: amount(half) }),
  ];
}
