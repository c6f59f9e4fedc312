/** A batch's limits as a person types them. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { StageLimits } from '../../../../shared/stage.ts';
import { readNumber } from '../../data/read-number.ts';
import { celsiusFrom, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import type { PileWords } from './use-pile-words.ts';

export type LimitKey = keyof StageLimits;
export type TypedLimits = Readonly<Partial<Record<LimitKey, string>>>;

/** Pairs stand side by side, in the order of the ledger above the form. */
export const limitFields: readonly LimitKey[] = [
  'comfortMinC',
  'comfortMaxC',
  'actC',
  'lossC',
  'moistureMinFrac',
  'moistureMaxFrac',
  'depthMinM',
  'depthMaxM',
  'lengthMinH',
  'lengthMaxH',
];

type Measure = 'heat' | 'share' | 'depth' | 'length';

const measures: Record<LimitKey, Measure> = {
  comfortMinC: 'heat',
  comfortMaxC: 'heat',
  actC: 'heat',
  lossC: 'heat',
  moistureMinFrac: 'share',
  moistureMaxFrac: 'share',
  depthMinM: 'depth',
  depthMaxM: 'depth',
  lengthMinH: 'length',
  lengthMaxH: 'length',
};

export function limitUnit(key: LimitKey, temp: TempUnit, { text }: PileWords): string {
  const measure = measures[key];
  return text('page-pile.limits.field-unit', {
    measure: measure === 'heat' ? 'other' : measure,
    unitText: unitSigns[temp],
  });
}

/** What stands in the field: short, without noise from the conversion. */
export function shownLimit(key: LimitKey, value: number, temp: TempUnit): string {
  const turned = { heat: tempIn(temp, value), share: value * 100, depth: value * 100, length: value / 24 }[
    measures[key]
  ];
  return String(Number(turned.toFixed(1)));
}

/** What the server is sent; undefined when it is not a number. */
export function keptLimit(key: LimitKey, text: string, temp: TempUnit): number | undefined {
  const typed = readNumber(text);
  if (typed === undefined || Number.isNaN(typed)) return undefined;
  const turned = { heat: celsiusFrom(temp, typed), share: typed / 100, depth: typed / 100, length: typed * 24 }[
    measures[key]
  ];
  return Number(turned.toFixed(4));
}

/** Each must lie below the next of its row. */
const rising: readonly (readonly LimitKey[])[] = [
  ['comfortMinC', 'comfortMaxC', 'actC', 'lossC'],
  ['moistureMinFrac', 'moistureMaxFrac'],
  ['depthMinM', 'depthMaxM'],
  ['lengthMinH', 'lengthMaxH'],
];

export interface LimitChange {
  readonly limits: Partial<Record<LimitKey, number>>;
  /** What is wrong, by field. */
  readonly wrong: Partial<Record<LimitKey, string>>;
}

/** Only what was typed is sent, so that the rest keeps its origin. */
export function limitChange(
  kept: PileDetail['limits'],
  typed: TypedLimits,
  temp: TempUnit,
  { text: say }: PileWords,
): LimitChange {
  const limits: Partial<Record<LimitKey, number>> = {};
  const wrong: Partial<Record<LimitKey, string>> = {};
  for (const key of limitFields) {
    const text = typed[key];
    if (text === undefined) continue;
    const value = keptLimit(key, text, temp);
    if (value === undefined) wrong[key] = say('page-pile.limits.number');
    else limits[key] = value;
  }
  const standing = (key: LimitKey) => limits[key] ?? kept[key]?.value;
  for (const keys of rising) {
    keys.slice(1).forEach((key, i) => {
      const below = keys[i];
      const [low, high] = [below && standing(below), standing(key)];
      if (low === undefined || high === undefined || low < high || !below) return;
      if (typed[key] === undefined && typed[below] === undefined) return;
      wrong[key] ??= say('page-pile.limits.above', { labelText: say(`page-pile.limit.${below}`) });
    });
  }
  return { limits, wrong };
}
