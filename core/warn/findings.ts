/**
 * core/warn/findings.ts: every detector's finding, in the order of how much it matters.
 *
 * Takes:  one look at the pile.
 * Gives:  findings; those explained by another say by which.
 */
import type { Finding } from '../judge/assessment.ts';
import { dryingFinding } from './drying.ts';
import type { Look } from './look.ts';
import { overheatingFinding } from './overheating.ts';
import { probeFaultFindings } from './probe-faults.ts';
import { selfHeatingFinding } from './self-heating.ts';
import { silenceFindings } from './silence.ts';
import { stallingFinding } from './stalling.ts';

export function findingsOf(look: Look): Finding[] {
  return [
    selfHeatingFinding(look),
    overheatingFinding(look),
    ...silenceFindings(look),
    ...probeFaultFindings(look),
    dryingFinding(look),
    stallingFinding(look),
  ];
}
