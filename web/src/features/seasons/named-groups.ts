/** Batches parted by what they have in common, with what people call each. */
import { type Group, groupsBy as partedBy } from '../../../../core/seasons/groups.ts';
import { coverSchema } from '../../../../shared/contracts/domain/batch.ts';
import type { ComparedBatch, Split } from '../../../../shared/contracts/seasons.ts';
import { type Message, message, type Say } from '../../../../shared/messages/message.ts';
import { stageSchema } from '../../../../shared/names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { verdicts } from '../../../../shared/verdict.ts';

/** What a group of these is called; undefined where the grower named it. */
function nameOf(split: Split, id: string): Message | undefined {
  if (split === 'material') return materialProfiles[id as keyof typeof materialProfiles]?.name;
  if (split === 'cover') {
    const { data: cover } = coverSchema.safeParse(id);
    return cover && message(`laid.cover.${cover}`);
  }
  if (split === 'verdict') {
    const verdict = verdicts.find((one) => one === id);
    return verdict && message('season.verdict', { verdict });
  }
  const { data: stage } = split === 'stage' ? stageSchema.safeParse(id) : {};
  return stage && message('season.stage', { stage });
}

/** The largest first; by verdict the best first. */
export function groupsBy(batches: readonly ComparedBatch[], split: Split, say: Say): Group[] {
  const groups = partedBy(batches, split);
  if (split === 'verdict') groups.sort((one, other) => placeOf(one) - placeOf(other));
  return groups.map((group) => {
    const name = nameOf(split, group.id);
    return name === undefined ? group : { ...group, name: say(name) };
  });
}

const placeOf = ({ id }: Group): number => (verdicts as readonly string[]).indexOf(id);
