/** Which batches are laid beside each other. */

import type { CompareAnswer } from '../../../../shared/contracts/seasons.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import { capital, stageNames } from '../../ui/format/words.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import type { ChoiceKey, ChoiceText } from './address.ts';
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
function picksOf({ sites, years, seasons, materials, starters }: ChooseProps['offers']): Pick[] {
  const named = (all: readonly { readonly id: string; readonly name: string }[]) =>
    all.map(({ id, name }) => [id, name] as const);
  return [
    {
      key: 'stage',
      label: 'Stage',
      choices: [
        ['bran', stageNames.bran],
        ['soil', stageNames.soil],
      ],
    },
    { key: 'site', label: 'Site', choices: named(sites) },
    { key: 'year', label: 'Year', choices: years.map((year) => [String(year), String(year)]) },
    { key: 'season', label: 'Season', choices: named(seasons) },
    {
      key: 'material',
      label: 'Material',
      choices: materials.map((material) => [material, capital(materialNames[material])]),
    },
    { key: 'starter', label: 'Starter', choices: named(starters) },
  ];
}

export function Choose({ choice, offers, onChoice }: ChooseProps) {
  const kin = choice.lineage !== undefined;
  return (
    <div class="choose">
      {picksOf(offers).map(({ key, label, choices }) => (
        <PickField
          key={key}
          label={label}
          value={choice[key] ?? ''}
          choices={[['', 'all'], ...choices]}
          onValue={(value) => {
            const { [key]: _before, ...others } = choice;
            onChoice(value === '' ? others : { ...others, [key]: value });
          }}
        />
      ))}
      <PickField
        label="Running ones"
        value={choice.state ?? 'ended'}
        choices={[
          ['ended', 'left out'],
          ['all', 'laid beside'],
        ]}
        onValue={(state) => {
          const { state: _before, ...others } = choice;
          onChoice(state === 'ended' ? others : { ...others, state });
        }}
      />
      {(kin || choice.batches) && (
        <p class="hint choose-more">
          {kin ? 'Only relatives of one batch or lot are shown.' : 'Only batches picked one by one are shown.'}{' '}
          <button
            type="button"
            class="plain"
            onClick={() => {
              const { lineage: _kin, batches: _ids, ...others } = choice;
              onChoice(others);
            }}
          >
            Show the others too
          </button>
        </p>
      )}
    </div>
  );
}
