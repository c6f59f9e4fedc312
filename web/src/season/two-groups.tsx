/**
 * web/season/two-groups.tsx: two groups of batches, and by how much each measure differs, in words and with an interval.
 */
import { difference } from '../../../core/season/difference.ts';
import { chanceRemark, noCause, sayDifference } from '../../../core/season/difference-words.ts';
import { measureKeys } from '../../../core/season/measure-keys.ts';
import type { ComparedBatch } from '../../../shared/api/seasons.ts';
import type { TempUnit } from '../format/temperature.ts';
import { coverNames, materialNames, stageNames } from '../format/words.ts';
import { PickField } from '../parts/forms.tsx';
import { type Split, splits, type View } from './address.ts';
import { amountOf, measureWords } from './measure-words.ts';
import { columnOf, partOf } from './table-rows.ts';

const splitNames: Record<Split, string> = {
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

export interface Group {
  readonly id: string;
  readonly name: string;
  readonly batches: readonly ComparedBatch[];
}

/** Every value of a split among these batches, the largest group first. */
export function groupsBy(batches: readonly ComparedBatch[], split: Split): Group[] {
  const found = new Map<string, { id: string; name: string; batches: ComparedBatch[] }>();
  for (const batch of batches) {
    for (const { id, name } of partOf(batch, split)) {
      const group = found.get(id) ?? { id, name: nameTables[split]?.[id] ?? name, batches: [] };
      group.batches.push(batch);
      found.set(id, group);
    }
  }
  return [...found.values()].sort((a, b) => b.batches.length - a.batches.length);
}

interface TwoGroupsProps {
  readonly batches: readonly ComparedBatch[];
  readonly view: Pick<View, 'split' | 'one' | 'other'>;
  readonly unit: TempUnit;
  readonly onView: (view: Pick<View, 'split' | 'one' | 'other'>) => void;
}

export function TwoGroups({ batches, view, unit, onView }: TwoGroupsProps) {
  const groups = view.split === '' ? [] : groupsBy(batches, view.split);
  const one = groups.find(({ id }) => id === view.one) ?? groups[0];
  const other = groups.find(({ id }) => id === view.other && id !== one?.id) ?? groups.find(({ id }) => id !== one?.id);
  const choices = groups.map(({ id, name, batches: of }) => [id, `${name} (${of.length})`] as const);
  return (
    <>
      <div class="choose">
        <PickField
          label="Part them by"
          value={view.split}
          choices={[['', 'nothing'], ...splits.map((split) => [split, splitNames[split]] as const)]}
          onValue={(split) => onView({ split, one: '', other: '' })}
        />
        {one && other && (
          <>
            <PickField
              label="One group"
              value={one.id}
              choices={choices}
              onValue={(id) => onView({ ...view, one: id })}
            />
            <PickField
              label="The other group"
              value={other.id}
              choices={choices}
              onValue={(id) => onView({ ...view, other: id })}
            />
          </>
        )}
      </div>
      {view.split === '' ? (
        <p class="quiet">Choose what to part the batches by, and what differs between two groups is told here.</p>
      ) : one && other ? (
        <Told one={one} other={other} unit={unit} />
      ) : (
        <p class="quiet">All batches shown here have the same {splitNames[view.split]}.</p>
      )}
    </>
  );
}

function Told({ one, other, unit }: { readonly one: Group; readonly other: Group; readonly unit: TempUnit }) {
  const told = measureKeys.map((key) => {
    const found = difference(columnOf(one.batches, key), columnOf(other.batches, key));
    const saying = { name: measureWords[key].name(unit), amount: amountOf(key, unit) };
    const [low, high] = found.interval ?? [0, 0];
    return { key, found, stands: low > 0 || high < 0, words: sayDifference(found, saying, [one.name, other.name]) };
  });
  const compared = told.filter(({ found }) => found.interval !== null).length;
  const few = told.every(({ found }) => found.interval === null);
  const apart = told.filter(({ stands }) => stands);
  const rest = told.filter(({ stands }) => !stands);
  return (
    <div class="told">
      <p class="sentence">
        {few
          ? `${countsSaid(one, other)}: too few to tell.`
          : apart.length === 0
            ? 'No measure differs clearly between the two.'
            : `${apart.length === 1 ? 'One measure differs' : `${apart.length} measures differ`} between the two.`}
      </p>
      <ul class="differences">
        {apart.map(({ key, words }) => (
          <li key={key}>{words}</li>
        ))}
      </ul>
      {!few && rest.length > 0 && (
        <details class="more">
          <summary>The other measures</summary>
          <ul class="differences">
            {rest.map(({ key, words }) => (
              <li key={key}>{words}</li>
            ))}
          </ul>
        </details>
      )}
      <p class="hint">
        {noCause} {chanceRemark(compared)}
      </p>
    </div>
  );
}

function countsSaid(one: Group, other: Group): string {
  const [a, b] = [one.batches.length, other.batches.length];
  return a === b ? `${a === 1 ? 'One batch' : `${a} batches`} each` : `${a} and ${b} batches`;
}
