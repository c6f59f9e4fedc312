/** How long the core has been too cold for the culture to work. */
import { z } from 'zod';
import { lowLimit } from '../alarms/deadband.ts';

export const coldSchema = z.object({
  /** Hours in a row [h]. */
  forH: z.number(),
});
type Cold = z.infer<typeof coldSchema>;

/** Below this mesophilic growth is a quarter and less of its best (Rosso 1993 with the set of S. cerevisiae) [°C]. */
export const chilledC = 12;
/** Cold until it is this much warmer [K]; our own choice, no source. */
const deadbandK = 1.5;

export const startCold = (): Cold => ({ forH: 0 });

export function followCold(cold: Cold, coreC: number): void {
  cold.forH = lowLimit(cold.forH > 0, coreC, chilledC, deadbandK) ? cold.forH + 1 : 0;
}
