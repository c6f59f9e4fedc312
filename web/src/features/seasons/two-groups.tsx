/** Two groups of batches, and by how much each measure differs, in words and with an interval. */

import { chanceRemark, noCause, sayDifference } from '../../../../core/seasons/difference-message.ts';
import { compareGroups, type Group, pairOf } from '../../../../core/seasons/groups.ts';
import { type ComparedBatch, splits } from '../../../../shared/contracts/seasons.ts';
import { paragraph, verbatim } from '../../../../shared/messages/message.ts';
import { useSay } from '../../data/live/use-say.ts';
import type { TempUnit } from '../../ui/format/temperature.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import type { View } from './address.ts';
import { amountOf, measureWords } from './measure-words.ts';
import { groupsBy, splitNames } from './named-groups.ts';
import { renderSeason } from './render-season.ts';
import './season.css';

interface TwoGroupsProps {
  readonly batches: readonly ComparedBatch[];
  readonly view: Pick<View, 'split' | 'one' | 'other'>;
  readonly unit: TempUnit;
  readonly onView: (view: Pick<View, 'split' | 'one' | 'other'>) => void;
}

export function TwoGroups({ batches, view, unit, onView }: TwoGroupsProps) {
  const groups = view.split === '' ? [] : groupsBy(batches, view.split);
  const [one, other] = pairOf(groups, view.one, view.other) ?? [];
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
        <p class="quiet">Choose what to part the batches by, and what differs between two groups is shown here.</p>
      ) : one && other ? (
        <Comparison one={one} other={other} unit={unit} />
      ) : (
        <p class="quiet">All batches shown here have the same {splitNames[view.split]}.</p>
      )}
    </>
  );
}

function Comparison({ one, other, unit }: { readonly one: Group; readonly other: Group; readonly unit: TempUnit }) {
  const say = useSay(renderSeason);
  const measures = compareGroups(one, other).map((found) => {
    const amount = amountOf(found.key, unit);
    const saying = {
      name: verbatim(measureWords[found.key].name(unit)),
      amount: (difference: number) => verbatim(amount(difference)),
    };
    return { ...found, words: say(sayDifference(found, saying, [one.name, other.name])) };
  });
  const compared = measures.filter(({ interval }) => interval !== null).length;
  const few = measures.every(({ interval }) => interval === null);
  const standing = measures.filter(({ apart }) => apart);
  const rest = measures.filter(({ apart }) => !apart);
  return (
    <div>
      <p class="sentence">
        {few
          ? `${countsSaid(one, other)}: too few to tell.`
          : standing.length === 0
            ? 'No measure differs clearly between the two.'
            : `${standing.length === 1 ? 'One measure differs' : `${standing.length} measures differ`} between the two.`}
      </p>
      <ul class="differences">
        {standing.map(({ key, words }) => (
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
      <p class="hint no-print">{say(paragraph(noCause, chanceRemark(compared)))}</p>
    </div>
  );
}

function countsSaid(one: Group, other: Group): string {
  const [a, b] = [one.batches.length, other.batches.length];
  return a === b ? `${a === 1 ? 'One batch' : `${a} batches`} each` : `${a} and ${b} batches`;
}
