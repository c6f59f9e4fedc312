/** Air as the pile feels it. */
import { z } from 'zod';

export const airSchema = z.object({
  /** Eased over some hours, and over a day [°C]; null before any. */
  feltC: z.number().nullable(),
  dayC: z.number().nullable(),
});
export type Air = z.infer<typeof airSchema>;

/** Hours over which each is eased [h]; our own choice, no source. */
const feltH = 4;
const dayH = 24;
/** Where no air is measured and the bed begins warmer than this, the air is taken as this [°C]; our own choice, no source. */
const warmestGuessC = 25;

export const startAir = (): Air => ({ feltC: null, dayC: null });

/** Without a probe beside the pile, its air is taken as the coolest the core began with. */
export function easeAir(air: Air, airC: number | null, coreC: number | null): void {
  const seenC = airC ?? (air.feltC === null && coreC !== null ? Math.min(coreC, warmestGuessC) : null);
  if (seenC === null) return;
  air.feltC = air.feltC === null ? seenC : air.feltC + (seenC - air.feltC) / feltH;
  air.dayC = air.dayC === null ? seenC : air.dayC + (seenC - air.dayC) / dayH;
}

interface AirSight {
  readonly positions: { readonly air: { readonly temperature: unknown } | null };
  readonly air: Air;
}

/** What the air is taken as while nobody measures it [°C]; undefined where somebody did, and before anything of the core. */
export function guessedAirC({ positions, air }: AirSight): number | undefined {
  return positions.air?.temperature == null ? (air.dayC ?? undefined) : undefined;
}
