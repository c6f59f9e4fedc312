/** Two groups of batches, and by how much each measure differs, in words and with an interval. */

import { chanceRemark, noCause, sayDifference } from '../../../../core/seasons/difference-message.ts';
import { compareGroups, type Group, pairOf } from '../../../../core/seasons/groups.ts';
import { type ComparedBatch, splits } from '../../../../shared/contracts/seasons.ts';
import { paragraph, verbatim } from '../../../../shared/messages/message.ts';
import type { TempUnit } from '../../ui/format/temperature.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import type { View } from './address.ts';
import { amountOf, measureName } from './measure-words.ts';
import { groupsBy } from './named-groups.ts';
import { useSaySeason, useSeasonWords } from './use-season-words.ts';
import './season.css';

interface TwoGroupsProps {
  readonly batches: readonly ComparedBatch[];
  readonly view: Pick<View, 'split' | 'one' | 'other'>;
  readonly unit: TempUnit;
  readonly onView: (view: Pick<View, 'split' | 'one' | 'other'>) => void;
}

export function TwoGroups({ batches, view, unit, onView }: TwoGroupsProps) {
  const { text } = useSeasonWords();
  const say = useSaySeason();
  const groups = view.split === '' ? [] : groupsBy(batches, view.split, say);
  const [one, other] = pairOf(groups, view.one, view.other) ?? [];
  const choices = groups.map(({ id, name, batches: of }) => [id, `${name} (${of.length})`] as const);
  return (
    <>
      <div class="choose">
        <PickField
          label={text('page-seasons.split')}
          value={view.split}
          choices={[
            ['', text('page-seasons.split.nothing')],
            ...splits.map((split) => [split, text(`page-seasons.fact.${split}`)] as const),
          ]}
          onValue={(split) => onView({ split, one: '', other: '' })}
        />
        {one && other && (
          <>
            <PickField
              label={text('page-seasons.split.one')}
              value={one.id}
              choices={choices}
              onValue={(id) => onView({ ...view, one: id })}
            />
            <PickField
              label={text('page-seasons.split.other')}
              value={other.id}
              choices={choices}
              onValue={(id) => onView({ ...view, other: id })}
            />
          </>
        )}
      </div>
      {view.split === '' ? (
        <p class="quiet">{text('page-seasons.split.choose')}</p>
      ) : one && other ? (
        <Comparison one={one} other={other} unit={unit} />
      ) : (
        <p class="quiet">{text('page-seasons.split.same', { factText: text(`page-seasons.fact.${view.split}`) })}</p>
      )}
    </>
  );
}

function Comparison({ one, other, unit }: { readonly one: Group; readonly other: Group; readonly unit: TempUnit }) {
  const words = useSeasonWords();
  const { text } = words;
  const say = useSaySeason();
  const measures = compareGroups(one, other).map((found) => {
    const amount = amountOf(found.key, unit, words);
    const saying = {
      name: measureName(found.key),
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
          ? text('page-seasons.split.few', {
              isEach: one.batches.length === other.batches.length,
              oneCount: one.batches.length,
              otherCount: other.batches.length,
            })
          : text('page-seasons.split.standing', { measureCount: standing.length })}
      </p>
      <ul class="differences">
        {standing.map(({ key, words }) => (
          <li key={key}>{words}</li>
        ))}
      </ul>
      {!few && rest.length > 0 && (
        <details class="more">
          <summary>{text('page-seasons.split.rest')}</summary>
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
