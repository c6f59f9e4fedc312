/** Every number that the help says, from where the program itself has it; those that only the help says stand here with their source. */
import { chipErrorK } from '../../../../core/alarms/policies.ts';
import { placeM } from '../../../../core/estimate/work.ts';
import { handInBelowC } from '../../../../shared/squeeze.ts';
import { selfHeatingLadder, stageLimits } from '../../../../shared/stage.ts';
import { msPerHour } from '../../../../shared/units.ts';

const { bran, soil } = stageLimits;
/** A limit stays a round number in °F too. */
const whole = (valueC: number) => ({ valueC, decimals: 0 }) as const;
const cm = (metres: number) => 100 * metres;

export const figures = {
  handInC: whole(handInBelowC),
  fireC: whole(selfHeatingLadder[4].fromC),
  branDepthMinCm: cm(bran.depthMinM),
  branDepthMaxCm: cm(bran.depthMaxM),
  soilDepthMaxCm: cm(soil.depthMaxM),
  chipErrorK,
  placeCm: cm(placeM),
  /** A hand’s breadth; our own choice, no source. */
  edgeCm: 10,
  /** Half of a bed as wide as it is workable from both sides, and a hand outside; our own choice, no source. */
  stemCm: 50,
  /** Drying of a sample: Cornell Composting, "Moisture and carbon/nitrogen ratios", read second-hand. */
  dryFromC: whole(105),
  dryToC: whole(110),
  dryMs: 24 * msPerHour,
} as const;
