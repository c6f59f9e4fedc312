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

const liveDamp = (now: PositionNow | undefined): number | null => {
  if (!now || now.silent) return null;
  const pct = now.moisturePct ?? now.humidityPct;
  return pct === undefined ? null : Math.min(1, Math.max(0, pct / 100));
};

/** Null when no probe in the pile measures damp; a place without one takes its neighbours'. */
export function moundDamp(at: Positions): Dampness | null {
  const [top, core, base, edge] = [at.top, at.core, at.base, at.edge].map(liveDamp);
  const any = core ?? top ?? base ?? edge;
  if (any === null || any === undefined) return null;
  return { topFrac: top ?? edge ?? any, coreFrac: core ?? any, baseFrac: base ?? edge ?? any };
}

/** Whether the stipple comes from moisture probes or from the humidity of the pile's air. */
export function dampSource(at: Positions): 'moisture' | 'humidity' | null {
  const inside = positions.filter((position) => position !== 'air').map((position) => at[position]);
  if (inside.some((now) => now && !now.silent && now.moisturePct !== undefined)) return 'moisture';
  if (inside.some((now) => now && !now.silent && now.humidityPct !== undefined)) return 'humidity';
  return null;
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
          ? `, humidity ${Math.round(now.humidityPct)} %`
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
