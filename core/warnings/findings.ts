/** Every detector's finding, in the order of how much it matters. */

import { handFindings } from './by-hand.ts';
import { chilledFinding } from './chilled.ts';
import { dryingFinding } from './drying.ts';
import type { Finding } from './finding.ts';
import { heatDamageFinding } from './heat-damage.ts';
import { heatDoubtedFinding } from './heat-doubted.ts';
import { overheatingFinding } from './overheating.ts';
import { overheatingSoonFinding } from './overheating-soon.ts';
import { addProbeFaults } from './probe-faults.ts';
import { selfHeatingFinding } from './self-heating.ts';
import { addSilences } from './silence.ts';
import type { PileSnapshot } from './snapshot.ts';
import { stallingFinding } from './stalling.ts';
import { unevenFinding } from './uneven.ts';
import { waterloggedFinding } from './waterlogged.ts';

export function findingsOf(pile: PileSnapshot): Finding[] {
  const findings = [selfHeatingFinding(pile), overheatingFinding(pile), heatDoubtedFinding(pile)];
  for (const finding of handFindings(pile)) findings.push(finding);
  findings.push(overheatingSoonFinding(pile), heatDamageFinding(pile));
  addSilences(findings, pile);
  addProbeFaults(findings, pile);
  findings.push(
    dryingFinding(pile),
    stallingFinding(pile),
    waterloggedFinding(pile),
    chilledFinding(pile),
    unevenFinding(pile),
  );
  return findings;
}
