/**
 * web/mound/mound-facts.ts: what a drawing of a pile says, before it is drawn.
 *
 * Takes:  the last values by position.
 * Gives:  temperatures to colour by (null where nothing trustworthy was measured), dampness, and the drawing in words.
 * Never:  colours a place by a silent probe: an old value is not how the pile is.
 */
import type { PileSummary, PositionNow } from '../../../shared/api/piles.ts';
import { type Position, positions } from '../../../shared/names.ts';
import { lengthWords } from '../format/age.ts';
import { formatTemp, type TempUnit } from '../format/temperature.ts';
import { positionNames } from '../format/words.ts';
import type { Dampness } from './stipple.ts';

type Positions = PileSummary['positions'];

export interface MoundHeat {
  readonly topC: number | null;
  readonly coreC: number | null;
  readonly baseC: number | null;
}

const liveTemp = (now: PositionNow | undefined): number | null =>
  now && !now.silent ? (now.temperatureC ?? null) : null;

/** The edge stands in for an unmeasured top or base: it is skin too. */
export function moundHeat(at: Positions): MoundHeat {
  const edgeC = liveTemp(at.edge);
  return { topC: liveTemp(at.top) ?? edgeC, coreC: liveTemp(at.core), baseC: liveTemp(at.base) ?? edgeC };
}

/** Moisture as a fraction of how damp a pile can look: bone-dry by 20 %, as wet as bran is ever laid by 65 %. */
export function dampFraction(moisturePct: number): number {
  return Math.min(1, Math.max(0, (moisturePct - 20) / 45));
}

const liveMoisture = (now: PositionNow | undefined): number | null =>
  now && !now.silent && now.moisturePct !== undefined ? dampFraction(now.moisturePct) : null;

/**
 * How damp to draw the pile: by its moisture probes, else by the water balance, else not at all. Humidity is left out:
 * the air in a pile stays near saturation long after the pile has begun to dry.
 */
export function moundDamp({ positions: at, batch }: Pick<PileSummary, 'positions' | 'batch'>): Dampness | null {
  const [top, core, base, edge] = [at.top, at.core, at.base, at.edge].map(liveMoisture);
  const any = core ?? top ?? base ?? edge ?? (batch?.moisture ? dampFraction(batch.moisture.frac * 100) : null);
  if (any === null || any === undefined) return null;
  return { topFrac: top ?? edge ?? any, coreFrac: core ?? any, baseFrac: base ?? edge ?? any };
}

/** What the dots rest on, in words; undefined when there are none. */
export function dampWords({ positions: at, batch }: Pick<PileSummary, 'positions' | 'batch'>): string | undefined {
  if (positions.some((position) => liveMoisture(at[position]) !== null))
    return 'The dots show what the moisture probes read.';
  if (!batch?.moisture) return undefined;
  const { frac, sdFrac } = batch.moisture;
  const [low, high] = [frac - sdFrac, frac + sdFrac].map((edge) => Math.round(Math.min(1, Math.max(0, edge)) * 100));
  return `The dots show moisture by the water balance: about ${Math.round(frac * 100)} %, likely ${low} to ${high} %.`;
}

/** Humidity as people read it: a chip in wet air reads a little over 100. */
export function humidityWords(humidityPct: number): string {
  return `humidity ${Math.round(Math.min(100, Math.max(0, humidityPct)))}\u00a0%`;
}

export interface MoundLabel {
  readonly position: Position;
  readonly silent: boolean;
  /** The number beside the colour, or the word that stands for it. */
  readonly text: string;
  readonly tempC: number | null;
}

/** From top to ground, the air last. */
const labelOrder: readonly Position[] = ['top', 'core', 'edge', 'base', 'air'];

export function moundLabels(at: Positions, unit: TempUnit): MoundLabel[] {
  return labelOrder.flatMap((position) => {
    const now = at[position];
    if (!now) return [];
    const tempC = liveTemp(now);
    const text = now.silent ? 'silent' : tempC === null ? 'no heat probe' : formatTemp(tempC, unit);
    return [{ position, silent: now.silent, text, tempC }];
  });
}

/** The whole drawing in words, for those who hear it. */
export function moundInWords(at: Positions, unit: TempUnit, nowMs: number): string {
  const parts = labelOrder.flatMap((position) => {
    const now = at[position];
    if (!now) return [];
    const damp =
      now.moisturePct !== undefined
        ? `, moisture ${Math.round(now.moisturePct)} %`
        : now.humidityPct !== undefined
          ? `, ${humidityWords(now.humidityPct)}`
          : '';
    if (now.silent) {
      const was = now.temperatureC === undefined ? '' : `, was ${formatTemp(now.temperatureC, unit)}`;
      const since = now.at ? ` for ${lengthWords(nowMs - Date.parse(now.at))}` : '';
      return [`${positionNames[position]} silent${since}${was}`];
    }
    const heat = now.temperatureC === undefined ? 'temperature not measured' : formatTemp(now.temperatureC, unit);
    return [`${positionNames[position]} ${heat}${damp}`];
  });
  return parts.length === 0 ? 'Section of the pile: no probe claimed yet' : `Section of the pile: ${parts.join('; ')}`;
}
