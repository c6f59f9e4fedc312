/** A pile's limits as lines a grower reads, pairs joined. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { originTexts } from '../../../../shared/messages/made/en/origin.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { saidNow } from '../../data/said-now.ts';
import { formatTemp, plainNumber, type TempUnit } from '../../ui/format/temperature.ts';
import type { PileWords } from './use-pile-words.ts';

type Limits = PileDetail['limits'];

const renderOrigin = rendererOf(originTexts);

export interface LimitLine {
  readonly what: string;
  readonly value: string;
  readonly origin: string;
}

const known = [
  { what: 'comfort', keys: ['comfortMinC', 'comfortMaxC'] },
  { what: 'act', keys: ['actC'] },
  { what: 'loss', keys: ['lossC'] },
  { what: 'moisture', keys: ['moistureMinFrac', 'moistureMaxFrac'] },
  { what: 'depth', keys: ['depthMinM', 'depthMaxM'] },
  { what: 'other', keys: ['lengthMinH', 'lengthMaxH'] },
] as const;

/** A value in the unit people use for it: [number, unit]. */
function inPeoplesUnit(key: string, value: number, unit: string, temp: TempUnit): [string, string] {
  if (key.endsWith('C'))
    return [formatTemp(value, temp, 0).split('\u00a0')[0] ?? '', formatTemp(value, temp, 0).split('\u00a0')[1] ?? ''];
  if (key.endsWith('Frac')) return [plainNumber(value * 100, 0), '%'];
  if (key.endsWith('M')) return [plainNumber(value * 100, 0), 'cm'];
  if (key.endsWith('H')) return [plainNumber(value / 24, value % 24 === 0 ? 0 : 1), 'days'];
  return [String(value), unit];
}

export function limitLines(limits: Limits, temp: TempUnit, { text }: PileWords): LimitLine[] {
  const lines = known.flatMap(({ what, keys }) => {
    const found = keys.flatMap((key) => {
      const limit = limits[key];
      return limit
        ? [
            {
              said: inPeoplesUnit(key, limit.value, limit.unit, temp),
              origin: saidNow(limit.origin, limit.messages.origin, renderOrigin),
            },
          ]
        : [];
    });
    if (found.length === 0) return [];
    const unit = found.at(-1)?.said[1] ?? '';
    const [low, high] = [found[0]?.said[0] ?? '', found.at(-1)?.said[0] ?? ''];
    const value = text('page-pile.limits.value', {
      isPair: found.length > 1,
      lowText: low,
      highText: high,
      unit: unit === 'days' ? 'days' : 'other',
      unitText: unit,
    });
    const origin = [...new Set(found.map((one) => one.origin))].join('; ');
    return [{ what: text('page-pile.limits.what', { what }), value, origin }];
  });
  const covered = new Set<string>(known.flatMap(({ keys }) => [...keys]));
  const others = Object.entries(limits)
    .filter(([key]) => !covered.has(key))
    .map(([key, { value, unit, origin, messages }]) => ({
      what: key,
      value: `${value}\u00a0${unit}`,
      origin: saidNow(origin, messages.origin, renderOrigin),
    }));
  return [...lines, ...others];
}
