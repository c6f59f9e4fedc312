/** Every number that the help says, from where the program itself has it; those that only the help says stand here with their source. */
import { chipErrorK } from '../../../../core/alarms/policies.ts';
import { chilledC } from '../../../../core/estimate/cold.ts';
import { warmExcessK } from '../../../../core/estimate/phase.ts';
import { probeDepthM } from '../../../../core/estimate/work.ts';
import { fewestBatches } from '../../../../core/expect/finished.ts';
import { forecastH } from '../../../../core/forecast/forecast.ts';
import { nearHeldH, nearK } from '../../../../core/profiles/passed-heat.ts';
import { stageProfiles } from '../../../../shared/profiles/stages.ts';
import { handInBelowC } from '../../../../shared/squeeze.ts';
import { selfHeatingLadder, stageLimits } from '../../../../shared/stage.ts';
import { msPerHour } from '../../../../shared/units.ts';

const { bran, soil } = stageLimits;
/** A limit stays a round number in °F too. */
const whole = (valueC: number) => ({ valueC, decimals: 0 }) as const;
const cm = (metres: number) => 100 * metres;

/** The sum of days is written as days. */
const days = (count: number) => 24 * msPerHour * count;

const limits = {
  branActC: whole(bran.actC),
  branLossC: whole(bran.lossC),
  branComfortMinC: whole(bran.comfortMinC),
  branComfortMaxC: whole(bran.comfortMaxC),
  branDepthMinCm: cm(bran.depthMinM),
  branDepthMaxCm: cm(bran.depthMaxM),
  branMoistMinFrac: bran.moistureMinFrac,
  branMoistMaxFrac: bran.moistureMaxFrac,
  branLengthMinMs: bran.lengthMinH * msPerHour,
  branLengthMaxMs: bran.lengthMaxH * msPerHour,
  branNeedsH: stageProfiles.bran.neededActivityH,
  soilActC: whole(soil.actC),
  soilLossC: whole(soil.lossC),
  soilComfortMinC: whole(soil.comfortMinC),
  soilComfortMaxC: whole(soil.comfortMaxC),
  soilDepthMinCm: cm(soil.depthMinM),
  soilDepthMaxCm: cm(soil.depthMaxM),
  soilMoistMinFrac: soil.moistureMinFrac,
  soilMoistMaxFrac: soil.moistureMaxFrac,
  soilLengthMinMs: soil.lengthMinH * msPerHour,
  soilLengthMaxMs: soil.lengthMaxH * msPerHour,
  soilNeedsH: stageProfiles.soil.neededActivityH,
} as const;

/** Of what a pile is judged by. */
const judged = {
  handInC: whole(handInBelowC),
  /** From this step of self-heating on nobody opens a pile. */
  glowC: whole(selfHeatingLadder.find(({ mayOpen }) => !mayOpen)?.fromC ?? selfHeatingLadder[0].fromC),
  fireC: whole(selfHeatingLadder[4].fromC),
  chilledC: whole(chilledC),
  warmK: warmExcessK,
  nearK,
  nearHeldH,
  chipErrorK,
  placeCm: cm(probeDepthM),
  ownBatchNumber: fewestBatches,
  fanMs: forecastH * msPerHour,
} as const;

/** Said here only; each with its source. */
const own = {
  /** A hand’s breadth; our own choice, no source. */
  edgeCm: 10,
  /** Half of a bed that can be worked from both sides, and a hand outside; our own choice, no source. */
  stemCm: 50,
  /** Drying of a sample: Cornell Composting, read second-hand. */
  dryFromC: whole(105),
  dryToC: whole(110),
  dryMs: 24 * msPerHour,
  /** Collecting: University of Hawaii, BIO-9, 2008, read second-hand; split at 20 °C as the planner splits its days. */
  splitC: whole(stageProfiles.bran.daysByAir?.warmFromC ?? 20),
  collectWarmMs: days(4),
  collectCoolMs: days(5),
  /** Kept in sugar: growers’ pages, read second-hand. */
  sugarMs: days(7),
  /** Activity strongly reduced and nearly nil: Cornell Composting, read second-hand. */
  slowFrac: 0.4,
  stopFrac: 0.3,
  /** Mason 2006, Waste Management 26: 3-21, read second-hand. */
  modelErrorK: 5,
  modelErrorH: 8,
  /** Where ice melts. */
  iceC: whole(0),
  /** As warm as a bran bed at work. */
  warmC: whole(bran.comfortMaxC),
  /** An example of a wrong probe, and how far apart its two checks may lie: twice what its maker vouches for; our own choice, no source. */
  offsetK: chipErrorK,
  spreadK: 2 * chipErrorK,
} as const;

export const figures = { ...limits, ...judged, ...own } as const;
