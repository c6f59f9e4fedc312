/** The last turning after the heat had passed, and whether the pile warmed again after it. */
import { z } from 'zod';
import type { Phase } from '../../shared/warning.ts';

export const lateTurningSchema = z.object({
  atMs: z.number().nullable(),
  /** The core then [°C], and how far it rose since [K]. */
  coreC: z.number(),
  risenK: z.number(),
});
type LateTurning = z.infer<typeof lateTurningSchema>;

export const startLateTurning = (): LateTurning => ({ atMs: null, coreC: 0, risenK: 0 });

/** Before the heat has passed a turning proves nothing. */
export function noteTurning(turning: LateTurning, phase: Phase, atMs: number, coreC: number): void {
  if (phase !== 'cooling' && phase !== 'settled') return;
  turning.atMs = atMs;
  turning.coreC = coreC;
  turning.risenK = 0;
}

export function followRise(turning: LateTurning, coreC: number): void {
  if (turning.atMs !== null) turning.risenK = Math.max(turning.risenK, coreC - turning.coreC);
}
