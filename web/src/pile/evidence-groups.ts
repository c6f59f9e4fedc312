/**
 * web/pile/evidence-groups.ts: what was looked at, the same rule at several places said once.
 */
import type { PileDetail } from '../../../shared/api/piles.ts';
import type { Position } from '../../../shared/names.ts';
import type { Evidence, WarningKind } from '../../../shared/warning.ts';

export interface EvidenceLine {
  readonly kind: WarningKind;
  readonly places: readonly Position[];
  readonly why: string;
}

export function evidenceLines(evidence: PileDetail['evidence'], wanted: Evidence): EvidenceLine[] {
  const lines: { kind: WarningKind; places: Position[]; why: string }[] = [];
  for (const { kind, position, evidence: found, why } of evidence) {
    if (found !== wanted) continue;
    const known = lines.find((line) => line.kind === kind && line.why === why);
    const places = position === null ? [] : [position];
    if (known) known.places.push(...places);
    else lines.push({ kind, places, why });
  }
  return lines;
}
