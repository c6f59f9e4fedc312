/** How the kinds of warnings are grouped on the page that says why, and where each one's page is. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { msPerHour } from '../../../../shared/units.ts';
import { type WarningKind, warningKinds } from '../../../../shared/warning.ts';

/** Where one kind's page lies. */
export function whyPath(pileId: string, kind: WarningKind): string {
  return `/piles/${encodeURIComponent(pileId)}/why/${kind}`;
}

/** Acts that may still explain what the probes show: the judge gives a pile 18 hours after a hand, so a day covers it. */
const lately = 24 * msPerHour;

export function actsLately(acts: PileDetail['acts'], nowMs: number): PileDetail['acts'] {
  return acts
    .filter((act) => act.kind !== 'note' && nowMs - Date.parse(act.at) < lately)
    .sort((one, other) => other.at.localeCompare(one.at));
}

export interface WhyGroups {
  readonly present: readonly WarningKind[];
  readonly missing: readonly WarningKind[];
  readonly absent: readonly WarningKind[];
}

/** Each kind once: seen somewhere, else untellable somewhere, else looked for and not seen. */
export function whyGroups(evidence: PileDetail['evidence']): WhyGroups {
  const kinds = warningKinds.filter((kind) => evidence.some((one) => one.kind === kind));
  const has = (kind: WarningKind, found: 'present' | 'missing') =>
    evidence.some((one) => one.kind === kind && one.evidence === found);
  const present = kinds.filter((kind) => has(kind, 'present'));
  const missing = kinds.filter((kind) => !has(kind, 'present') && has(kind, 'missing'));
  return { present, missing, absent: kinds.filter((kind) => !present.includes(kind) && !missing.includes(kind)) };
}
