/**
 * What is normal for each stage, each figure with where it comes from. It never claims that a pile is sanitised or
 * safe: these limits serve the culture.
 */
import { z } from 'zod';
import { type Message, message } from './messages/message.ts';
import type { Stage } from './names.ts';

/** Beyond these no limit means anything, and a warning set so would never come. */
const hours = z.number().positive().max(10_000);
const degreesC = z.number().min(-50).max(150);
const metres = z.number().positive().max(10);

export const stageLimitsSchema = z.object({
  /** Expected shortest and longest length of the stage [h]. */
  lengthMinH: hours,
  lengthMaxH: hours,
  /** Band in which the core is comfortable [°C]. */
  comfortMinC: degreesC,
  comfortMaxC: degreesC,
  /** Spread thinner or turn at this core temperature [°C]. */
  actC: degreesC,
  /** The wanted culture is being lost at this temperature [°C]. */
  lossC: degreesC,
  /** Moisture, wet basis, as a fraction [-]. */
  moistureMinFrac: z.number().min(0).max(1),
  moistureMaxFrac: z.number().min(0).max(1),
  /** Depth of the bed [m]. */
  depthMinM: metres,
  depthMaxM: metres,
});
export type StageLimits = z.infer<typeof stageLimitsSchema>;

/** Where each figure comes from. */
type LimitOrigin = Record<keyof StageLimits, Message>;

const practice = message('origin.practice');
const daysDiffer = message('origin.practice-days-differ');

export const stageLimits: Record<Stage, StageLimits> = {
  bran: {
    lengthMinH: 120,
    lengthMaxH: 240,
    comfortMinC: 35,
    comfortMaxC: 45,
    actC: 50,
    lossC: 60,
    moistureMinFrac: 0.5,
    moistureMaxFrac: 0.65,
    depthMinM: 0.2,
    depthMaxM: 0.38,
  },
  soil: {
    lengthMinH: 48,
    lengthMaxH: 168,
    comfortMinC: 15,
    comfortMaxC: 45,
    actC: 50,
    lossC: 55,
    moistureMinFrac: 0.4,
    moistureMaxFrac: 0.5,
    depthMinM: 0.05,
    depthMaxM: 0.2,
  },
};

export const limitOrigins: Record<Stage, LimitOrigin> = {
  bran: originOfAll(practice),
  soil: {
    ...originOfAll(practice),
    lengthMinH: daysDiffer,
    lengthMaxH: daysDiffer,
  },
};

function originOfAll(origin: Message): LimitOrigin {
  return {
    lengthMinH: origin,
    lengthMaxH: origin,
    comfortMinC: origin,
    comfortMaxC: origin,
    actC: origin,
    lossC: origin,
    moistureMinFrac: origin,
    moistureMaxFrac: origin,
    depthMinM: origin,
    depthMaxM: origin,
  };
}

/**
 * Steps of the self-heating hazard [°C], each with what farm extension services advise.
 * Source: the stored-hay ladder of Penn State and Purdue Extension (150, 160, 175, 190, 200 °F), read second-hand. At 150 °F it is
 * taken apart to cool and measured twice a day; at 175 °F all movement of air is stopped and the fire service called (M. Hall, Penn
 * State, in Hay & Forage Grower, "If baling hay wet, watch for fires"; the first also in CDQAP 2020, which wants the fire service
 * there from 160 °F on).
 */
export const selfHeatingLadder = [
  { fromC: 65, mayOpen: true },
  { fromC: 71, mayOpen: true },
  { fromC: 79, mayOpen: false },
  { fromC: 88, mayOpen: false },
  { fromC: 93, mayOpen: false },
] as const;
