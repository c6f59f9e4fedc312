/** The practice runs there are, in the order a newcomer should take them. */

import { coldNights } from './scenarios/cold-nights.ts';
import { fanLeftOn } from './scenarios/fan-left-on.ts';
import { forgotten } from './scenarios/forgotten.ts';
import { hotWeek } from './scenarios/hot-week.ts';
import type { PracticeScenario } from './scenarios/practice-scenario.ts';
import { probeOut } from './scenarios/probe-out.ts';
import { tooDeep } from './scenarios/too-deep.ts';
import { tooWet } from './scenarios/too-wet.ts';
import { whenToStop } from './scenarios/when-to-stop.ts';

export const practiceScenarios: readonly PracticeScenario[] = [
  whenToStop,
  hotWeek,
  coldNights,
  tooWet,
  tooDeep,
  fanLeftOn,
  forgotten,
  probeOut,
];
