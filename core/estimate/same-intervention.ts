import { msPerHour } from '../../shared/units.ts';

/** Within this of each other, a logged and a detected intervention are the same one [ms]; our own choice, no source. */
export const sameInterventionMs = 3 * msPerHour;
