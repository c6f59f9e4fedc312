/** Which batches are laid beside each other. */

import type { CompareAnswer } from '../../../../shared/contracts/seasons.ts';
import { message, type Say } from '../../../../shared/messages/message.ts';
import { stages } from '../../../../shared/names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import type { ChoiceKey, ChoiceText } from './address.ts';
import { type SeasonWords, useSaySeason, useSeasonWords } from './use-season-words.ts';
import './season.css';

interface ChooseProps {
  readonly choice: ChoiceText;
  readonly offers: CompareAnswer['offers'];
  readonly onChoice: (choice: ChoiceText) => void;
}

interface Pick {
  readonly key: ChoiceKey;
  readonly label: string;
  readonly choices: readonly (readonly [string, string])[];
}

/** What can be chosen of what there is. */
function picksOf(
  { sites, years, seasons, materials, starters }: ChooseProps['offers'],
  { text }: SeasonWords,
  say: Say,
): Pick[] {
  const named = (all: readonly { readonly id: string; readonly name: string }[]) =>
    all.map(({ id, name }) => [id, name] as const);
  return [
    {
      key: 'stage',
      label: text('page-seasons.choose.stage'),
      choices: stages.map((stage) => [stage, say(message('season.stage', { stage }))]),
    },
    { key: 'site', label: text('page-seasons.choose.site'), choices: named(sites) },
    {
      key: 'year',
      label: text('page-seasons.choose.year'),
      choices: years.map((year) => [String(year), String(year)]),
    },
    { key: 'season', label: text('page-seasons.choose.season'), choices: named(seasons) },
    {
      key: 'material',
      label: text('page-seasons.choose.material'),
      choices: materials.map((material) => [material, capital(say(materialProfiles[material].name))]),
    },
    { key: 'starter', label: text('page-seasons.choose.starter'), choices: named(starters) },
  ];
}

export function Choose({ choice, offers, onChoice }: ChooseProps) {
  const words = useSeasonWords();
  const { text } = words;
  const say = useSaySeason();
  const kin = choice.lineage !== undefined;
  return (
    <div class="choose">
      {picksOf(offers, words, say).map(({ key, label, choices }) => (
        <PickField
          key={key}
          label={label}
          value={choice[key] ?? ''}
          choices={[['', text('page-seasons.choose.all')], ...choices]}
          onValue={(value) => {
            const { [key]: _before, ...others } = choice;
            onChoice(value === '' ? others : { ...others, [key]: value });
          }}
        />
      ))}
      <PickField
        label={text('page-seasons.choose.running')}
        value={choice.state ?? 'ended'}
        choices={[
          ['ended', text('page-seasons.choose.running.out')],
          ['all', text('page-seasons.choose.running.all')],
        ]}
        onValue={(state) => {
          const { state: _before, ...others } = choice;
          onChoice(state === 'ended' ? others : { ...others, state });
        }}
      />
      {(kin || choice.batches) && (
        <p class="hint choose-more">
          {text('page-seasons.choose.only', { isKin: kin })}{' '}
          <button
            type="button"
            class="plain"
            onClick={() => {
              const { lineage: _kin, batches: _ids, ...others } = choice;
              onChoice(others);
            }}
          >
            {text('page-seasons.choose.others')}
          </button>
        </p>
      )}
    </div>
  );
}
