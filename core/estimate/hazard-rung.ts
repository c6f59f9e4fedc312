/** Which rung of the ladder of self-heating a position stands on, with a deadband: its words do not change while it hovers at one. */
import { selfHeatingLadder } from '../../shared/stage.ts';
import { temperatureDeadbandK } from '../alarms/policies.ts';

/** Counted from 1; 0 below the ladder. */
export type Rung = 0 | 1 | 2 | 3 | 4 | 5;

const lowestC = selfHeatingLadder[0].fromC;

/**
 * @param was The rung it stood on.
 * @example rungAt(2, 70.2) // => 2; rungAt(1, 70.2) // => 1
 */
export function rungAt(was: number, tempC: number): Rung {
  if (tempC < lowestC - temperatureDeadbandK) return 0; // nearly always
  const rung = selfHeatingLadder.findLastIndex(
    ({ fromC }, index) => tempC >= (index < was ? fromC - temperatureDeadbandK : fromC),
  );
  return (rung + 1) as Rung;
}
