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

export function Choose({ choice, offers, onChoice }: ChooseProps) {
  const pick = (key: ChoiceKey, label: string, choices: readonly (readonly [string, string])[]) => (
    <PickField
      label={label}
      value={choice[key] ?? ''}
      choices={[['', 'all'], ...choices]}
      onValue={(value) => {
        const { [key]: _before, ...others } = choice;
        onChoice(value === '' ? others : { ...others, [key]: value });
      }}
    />
  );
  const kin = choice.lineage !== undefined;
  return (
    <div class="choose">
      {pick('stage', 'Stage', [
        ['bran', stageNames.bran],
        ['soil', stageNames.soil],
      ])}
      {pick(
        'site',
        'Site',
        offers.sites.map(({ id, name }) => [id, name]),
      )}
      {pick(
        'year',
        'Year',
        offers.years.map((year) => [String(year), String(year)]),
      )}
      {pick(
        'season',
        'Season',
        offers.seasons.map(({ id, name }) => [id, name]),
      )}
      {pick(
        'material',
        'Material',
        offers.materials.map((material) => [material, capital(materialNames[material])]),
      )}
      {pick(
        'starter',
        'Starter',
        offers.starters.map(({ id, name }) => [id, name]),
      )}
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
