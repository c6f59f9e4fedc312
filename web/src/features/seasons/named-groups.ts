/** Batches parted by what they have in common, with what people call each. */
import { type Group, groupsBy as partedBy } from '../../../../core/seasons/groups.ts';
import { coverNames } from '../../../../shared/contracts/domain/batch.ts';
import type { ComparedBatch, Split } from '../../../../shared/contracts/seasons.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import { stageNames } from '../../ui/format/words.ts';

export const splitNames: Record<Split, string> = {
  material: 'material',
  site: 'site',
  year: 'year',
  season: 'season',
  starter: 'starter',
  stage: 'stage',
  cover: 'cover',
};

const nameTables: Partial<Record<Split, Record<string, string>>> = {
  material: materialNames,
  stage: stageNames,
  cover: coverNames,
};

/** The largest first. */
export function groupsBy(batches: readonly ComparedBatch[], split: Split): Group[] {
  return partedBy(batches, split).map((group) => ({ ...group, name: nameTables[split]?.[group.id] ?? group.name }));
}
