/** Every detector's finding, in the order of how much it matters. */

import { handFindings } from './by-hand.ts';
import { chilledFinding } from './chilled.ts';
import { dryingFinding } from './drying.ts';
import type { Finding } from './finding.ts';
import { heatDamageFinding } from './heat-damage.ts';
import { heatDoubtedFinding } from './heat-doubted.ts';
import { overheatingFinding } from './overheating.ts';
import { overheatingSoonFinding } from './overheating-soon.ts';
import { probeFaultFindings } from './probe-faults.ts';
import { selfHeatingFinding } from './self-heating.ts';
import { silenceFindings } from './silence.ts';
import type { PileSnapshot } from './snapshot.ts';
import { stallingFinding } from './stalling.ts';
import { unevenFinding } from './uneven.ts';
import { waterloggedFinding } from './waterlogged.ts';

export function findingsOf(pile: PileSnapshot): Finding[] {
  return [
    selfHeatingFinding(pile),
    overheatingFinding(pile),
    heatDoubtedFinding(pile),
    ...handFindings(pile),
    overheatingSoonFinding(pile),
    heatDamageFinding(pile),
    ...silenceFindings(pile),
    ...probeFaultFindings(pile),
    dryingFinding(pile),
    stallingFinding(pile),
    waterloggedFinding(pile),
    chilledFinding(pile),
    unevenFinding(pile),
  ];
}
