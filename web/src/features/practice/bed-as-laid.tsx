/** A practice pile before anybody measured it: outline, depth, cover, damp as written down. */

import { coverNames } from '../../../../shared/contracts/domain/batch.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { branKg, laidRecipe } from './laid-recipe.ts';
import './practice.css';

export function BedAsLaid({ scenario }: { readonly scenario: PracticeScenario }) {
  const { given, stage, id } = scenario;
  const batch = {
    id,
    startedAt: toInstant(0),
    progress: 0,
    phase: 'resting' as const,
    phaseReason: 'just-laid',
    ...(given.moistureFrac !== undefined && { moisture: { frac: given.moistureFrac, sdFrac: 0.03 } }),
  };
  return (
    <figure class="bed-as-laid">
      <div aria-hidden="true">
        <Mound pile={{ id, stage, positions: {}, batch }} depthM={given.depthM} cover={given.cover} large />
      </div>
      <figcaption>{laidWords(scenario)}</figcaption>
    </figure>
  );
}

function laidWords(scenario: PracticeScenario): string {
  const { material, depthM, moistureFrac, massKg, cover } = laidRecipe(scenario);
  const damp = moistureFrac === undefined ? '' : `, mixed to ${Math.round(moistureFrac * 100)}\u00a0% water`;
  const mass = massKg === undefined ? '' : `, about ${massKg}\u00a0kg in all`;
  return `As written down: ${branKg(scenario)}\u00a0kg of ${materialNames[material]}${damp}${mass}; ${Math.round(depthM * 100)}\u00a0cm deep, ${coverNames[cover]}.`;
}
