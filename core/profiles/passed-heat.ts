/**
 * What counts as heat that came, went and did not come back; one set for a running batch and for any other.
 *
 * Common practice, no source.
 */

/** Heat of its own that counts as having come [K]; our own choice, no source. */
export const cameK = 8;
/** So near to the air it counts as gone [K], held for so long [h]; our own choice, no source. */
export const nearK = 5;
export const nearHeldH = 6;
/** How long a turn is watched [h], and what counts as reheating [K]; our own choice, no source. */
export const turnWatchedH = 24;
export const reheatK = 3;
