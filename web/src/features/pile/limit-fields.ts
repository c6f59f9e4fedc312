/** A batch's limits as a person types them. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { StageLimits } from '../../../../shared/stage.ts';
import { readNumber } from '../../ui/format/read-number.ts';
import { celsiusFrom, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';

export type LimitKey = keyof StageLimits;
export type TypedLimits = Readonly<Partial<Record<LimitKey, string>>>;

export interface LimitField {
  readonly key: LimitKey;
  readonly label: string;
}

/** Pairs stand side by side, in the order of the ledger above the form. */
export const limitFields: readonly LimitField[] = [
  { key: 'comfortMinC', label: 'Comfortable from' },
  { key: 'comfortMaxC', label: 'Comfortable to' },
  { key: 'actC', label: 'Spread thinner or turn at' },
  { key: 'lossC', label: 'Culture being lost at' },
  { key: 'moistureMinFrac', label: 'Moisture from' },
  { key: 'moistureMaxFrac', label: 'Moisture to' },
  { key: 'depthMinM', label: 'Depth from' },
  { key: 'depthMaxM', label: 'Depth to' },
  { key: 'lengthMinH', label: 'Stage lasts from' },
  { key: 'lengthMaxH', label: 'Stage lasts to' },
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

export function limitUnit(key: LimitKey, temp: TempUnit): string {
  return { heat: unitSigns[temp], share: '%, wet basis', depth: 'cm', length: 'days' }[measures[key]];
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
export function limitChange(kept: PileDetail['limits'], typed: TypedLimits, temp: TempUnit): LimitChange {
  const limits: Partial<Record<LimitKey, number>> = {};
  const wrong: Partial<Record<LimitKey, string>> = {};
  for (const { key } of limitFields) {
    const text = typed[key];
    if (text === undefined) continue;
    const value = keptLimit(key, text, temp);
    if (value === undefined) wrong[key] = 'Give a number';
    else limits[key] = value;
  }
  const standing = (key: LimitKey) => limits[key] ?? kept[key]?.value;
  for (const keys of rising) {
    keys.slice(1).forEach((key, i) => {
      const below = keys[i];
      const [low, high] = [below && standing(below), standing(key)];
      if (low === undefined || high === undefined || low < high || !below) return;
      if (typed[key] === undefined && typed[below] === undefined) return;
      const label = limitFields.find((field) => field.key === below)?.label ?? below;
      wrong[key] ??= `Must be above “${label}”`;
    });
  }
  return { limits, wrong };
}
