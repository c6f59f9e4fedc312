/**
 * What a drawing of a pile says, before it is drawn. It never colours a place by a silent probe: an old value is not
 * how the pile is.
 */
import type { PileSummary, PositionNow } from '../../../../shared/contracts/piles.ts';
import type { Position } from '../../../../shared/names.ts';
import { quantityFacts } from '../../../../shared/quantity.ts';
import { ageWords, lengthWords } from '../format/age.ts';
import { chartedQuantities, readingWords } from '../format/quantity-words.ts';
import { formatTemp, type TempUnit } from '../format/temperature.ts';
import type { Dampness } from './stipple.ts';
import type { MoundWords } from './use-mound-words.ts';

type Positions = PileSummary['positions'];

export interface MoundHeat {
  readonly topC: number | null;
  readonly coreC: number | null;
  readonly baseC: number | null;
}

/** What is doubted colours nothing either: it may be so, or the probe may be wrong. */
const liveTemp = (now: PositionNow | undefined): number | null =>
  now && !now.silent && !now.doubted ? (now.temperatureC ?? null) : null;

/** The edge stands in for an unmeasured top or base: it is skin too. */
export function moundHeat(at: Positions): MoundHeat {
  const edgeC = liveTemp(at.edge);
  return { topC: liveTemp(at.top) ?? edgeC, coreC: liveTemp(at.core), baseC: liveTemp(at.base) ?? edgeC };
}

/** Moisture of the wet mass as a fraction of how damp a pile can look: bone-dry by 20 %, as wet as bran is ever laid by 65 %. */
export function dampFraction(frac: number): number {
  return Math.min(1, Math.max(0, (100 * frac - 20) / 45));
}

/**
 * How damp to draw the pile: by the water balance, which is of the wet mass and takes in what probes say; else not at all. Soil probes
 * tell per cent of volume, which is another figure for the same bed. Humidity is left out: the air in a pile stays near saturation
 * long after the pile has begun to dry.
 */
export function moundDamp({ batch }: Pick<PileSummary, 'batch'>): Dampness | null {
  if (!batch?.moisture) return null;
  const frac = dampFraction(batch.moisture.frac);
  return { topFrac: frac, coreFrac: frac, baseFrac: frac };
}

/** What the dots rest on, in words; undefined when there are none. */
export function dampWords({ batch }: Pick<PileSummary, 'batch'>, { text }: MoundWords): string | undefined {
  if (!batch?.moisture) return undefined;
  const { frac, sdFrac } = batch.moisture;
  const inPct = (edge: number) => Math.round(Math.min(1, Math.max(0, edge)) * 100);
  return text('page-mound.damp', {
    aboutCount: inPct(frac),
    lowCount: inPct(frac - sdFrac),
    highCount: inPct(frac + sdFrac),
  });
}

/** What else is measured there, each in a few words. */
export function otherReadings(now: PositionNow): string[] {
  return chartedQuantities.flatMap((quantity) => {
    const value = now[quantityFacts[quantity].key];
    return value === undefined ? [] : [readingWords(quantity, value, 'C')];
  });
}

export interface MoundLabel {
  readonly position: Position;
  readonly silent: boolean;
  /** The number is what was measured, and is not believed yet. */
  readonly doubted: boolean;
  /** The number beside the colour, or the word that stands for it. */
  readonly text: string;
  readonly tempC: number | null;
}

/** From top to ground, the air last. */
const labelOrder: readonly Position[] = ['top', 'core', 'edge', 'base', 'air'];

export function moundLabels(at: Positions, unit: TempUnit, { text }: MoundWords): MoundLabel[] {
  return labelOrder.flatMap((position) => {
    const now = at[position];
    if (!now) return [];
    const { silent, temperatureC } = now;
    const doubted = !silent && now.doubted !== undefined;
    const heat = () => {
      if (temperatureC === undefined) return text('page-mound.label', { stand: 'other' });
      const tempText = formatTemp(temperatureC, unit);
      return doubted ? text('page-mound.label.doubted', { tempText }) : tempText;
    };
    return [
      {
        position,
        silent,
        doubted,
        text: silent ? text('page-mound.label', { stand: now.byHand ? 'notMeasured' : 'silent' }) : heat(),
        tempC: liveTemp(now),
      },
    ];
  });
}

/** @example heatWords({ temperatureC: 70, doubted: { fromC: 46, … } }, 'C', words) // => "70.0 °C, doubted: a jump from 46.0 °C" */
export function heatWords(
  { temperatureC, doubted }: PositionNow,
  unit: TempUnit,
  { text }: MoundWords,
): string | undefined {
  if (temperatureC === undefined) return undefined;
  const tempText = formatTemp(temperatureC, unit);
  return doubted === undefined
    ? tempText
    : text('page-mound.doubted', { tempText, fromText: formatTemp(doubted.fromC, unit) });
}

/** The whole drawing in words, for those who hear it. */
export function moundInWords(at: Positions, unit: TempUnit, nowMs: number, words: MoundWords): string {
  const [first, ...others] = labelOrder.flatMap((position) => {
    const now = at[position];
    return now === undefined ? [] : [placeInWords(position, now, { unit, nowMs }, words)];
  });
  if (first === undefined) return words.text('page-mound.section.none');
  const placesText = others.reduce(
    (beforeText, nextText) => words.text('page-mound.section.next', { beforeText, nextText }),
    first,
  );
  return words.text('page-mound.section', { placesText });
}

function placeInWords(
  position: Position,
  now: PositionNow,
  { unit, nowMs }: { readonly unit: TempUnit; readonly nowMs: number },
  words: MoundWords,
): string {
  const { text } = words;
  const was = {
    wasHot: now.temperatureC !== undefined,
    wasText: now.temperatureC === undefined ? '' : formatTemp(now.temperatureC, unit),
  };
  if (now.silent && now.byHand) {
    const ageText = ageWords(nowMs - Date.parse(now.byHand.at));
    return text('page-mound.section.by-hand', { position, ageText, ...was });
  }
  if (now.silent) {
    const sinceText = now.at ? lengthWords(nowMs - Date.parse(now.at)) : '';
    return text('page-mound.section.silent', { position, hasSince: sinceText !== '', sinceText, ...was });
  }
  const heatText = heatWords(now, unit, words) ?? '';
  const dampText = dampReading(now, unit) ?? '';
  return text('page-mound.section.measured', {
    position,
    isHot: heatText !== '',
    heatText,
    isDamp: dampText !== '',
    dampText,
  });
}

function dampReading({ moisturePct, humidityPct }: PositionNow, unit: TempUnit): string | undefined {
  if (moisturePct !== undefined) return readingWords('moisture', moisturePct, unit);
  return humidityPct === undefined ? undefined : readingWords('humidity', humidityPct, unit);
}
