/** A practice pile before anybody measured it: outline, depth, cover, damp as written down. */
import { toInstant } from '../../../../shared/contracts/time.ts';
import { message } from '../../../../shared/messages/message.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import type { PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { branKg, laidRecipe } from './laid-recipe.ts';
import { usePracticeSay } from './use-practice-words.ts';
import './practice.css';

export function BedAsLaid({ scenario }: { readonly scenario: PracticeScenario }) {
  const { given, stage, id } = scenario;
  const { depthM, moistureFrac, cover } = given;
  const say = usePracticeSay();
  const batch = {
    id,
    startedAt: toInstant(0),
    progress: 0,
    phase: 'resting' as const,
    phaseReason: 'just-laid',
    moisture: { frac: moistureFrac, sdFrac: 0.03 },
  };
  return (
    <figure class="bed-as-laid">
      <div aria-hidden="true">
        <Mound pile={{ id, stage, positions: {}, batch }} depthM={depthM} cover={cover} large />
      </div>
      <figcaption>
        {say(
          message('practice.as-laid', {
            branKg: branKg(scenario),
            materialPart: materialProfiles[given.material].name,
            moistureFrac,
            massKg: laidRecipe(scenario).massKg,
            depthCm: Math.round(100 * depthM),
            coverPart: message(`laid.cover.${cover}`),
          }),
        )}
      </figcaption>
    </figure>
  );
}
