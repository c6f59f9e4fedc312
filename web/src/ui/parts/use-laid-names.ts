/** What materials, covers and shelters are called where one is chosen. */
import type { Cover, Shelter } from '../../../../shared/contracts/domain/batch.ts';
import { message } from '../../../../shared/messages/message.ts';
import type { Material } from '../../../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { useSay } from '../../data/live/use-say.ts';
import { renderLaid } from '../format/render-laid.ts';
import { capital } from '../format/words.ts';

export function useLaidNames() {
  const say = useSay(renderLaid);
  return {
    material: (material: Material) => capital(say(materialProfiles[material].name)),
    cover: (cover: Cover) => capital(say(message(`laid.cover.${cover}`))),
    shelter: (shelter: Shelter) => capital(say(message(`laid.shelter.${shelter}`))),
  };
}
