/**
 * web/practice/bed-as-laid.tsx: a practice pile before anybody measured it: outline, depth, cover, damp as told.
 */

import { toInstant } from '../../../shared/api/time.ts';
import type { PracticeScenario } from '../../../simulator/practice/practice-scenario.ts';
import { coverNames, materialNames } from '../format/words.ts';
import { Mound } from '../mound/mound.tsx';

export function BedAsLaid({ scenario }: { readonly scenario: PracticeScenario }) {
  const { told, stage, id } = scenario;
  const batch = {
    id,
    startedAt: toInstant(0),
    progress: 0,
    phase: 'resting' as const,
    phaseReason: 'just-laid',
    ...(told.moistureFrac !== undefined && { moisture: { frac: told.moistureFrac, sdFrac: 0.03 } }),
  };
  return (
    <figure class="bed-as-laid">
      <div aria-hidden="true">
        <Mound pile={{ id, stage, positions: {}, batch }} depthM={told.depthM} cover={told.cover} large />
      </div>
      <figcaption>{laidWords(scenario)}</figcaption>
    </figure>
  );
}

function laidWords({ told }: PracticeScenario): string {
  const damp = told.moistureFrac === undefined ? '' : `, ${Math.round(told.moistureFrac * 100)}\u00a0% water`;
  return `As written down: ${materialNames[told.material]}, ${Math.round(told.depthM * 100)}\u00a0cm deep${damp}, ${coverNames[told.cover]}`;
}
