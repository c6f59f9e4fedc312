/** Batches parted by what they have in common, with what people call each. */
import { type Group, groupsBy as partedBy } from '../../../../core/seasons/groups.ts';
import { coverSchema } from '../../../../shared/contracts/domain/batch.ts';
import type { ComparedBatch, Split } from '../../../../shared/contracts/seasons.ts';
import { type Message, message, type Say } from '../../../../shared/messages/message.ts';
import { stageSchema } from '../../../../shared/names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';

/** What a group of these is called; undefined where the grower named it. */
function nameOf(split: Split, id: string): Message | undefined {
  if (split === 'material') return materialProfiles[id as keyof typeof materialProfiles]?.name;
  if (split === 'cover') {
    const { data: cover } = coverSchema.safeParse(id);
    return cover && message(`laid.cover.${cover}`);
  }
  const { data: stage } = split === 'stage' ? stageSchema.safeParse(id) : {};
  return stage && message('season.stage', { stage });
}

/** The largest first. */
export function groupsBy(batches: readonly ComparedBatch[], split: Split, say: Say): Group[] {
  return partedBy(batches, split).map((group) => {
    const name = nameOf(split, group.id);
    return name === undefined ? group : { ...group, name: say(name) };
  });
}
