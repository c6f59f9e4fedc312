/** What the grower calls a season. */
import { useState } from 'preact/hooks';
import type { SeasonView } from '../../../../shared/contracts/seasons.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital } from '../../ui/format/words.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { nameSeason } from './season-api.ts';
import { useSeasonWords } from './use-season-words.ts';
import './season.css';

interface SeasonNamesProps {
  readonly seasons: readonly SeasonView[];
  readonly onNamed: () => void;
}

export function SeasonNames({ seasons, onNamed }: SeasonNamesProps) {
  const { text } = useSeasonWords();
  const [open, setOpen] = useState<string>();
  return (
    <ul class="season-names">
      {seasons.map((season) => (
        <li key={season.id}>
          <span>
            <b>{capital(season.name)}</b>
            <span class="quiet">
              {' '}
              {text('page-seasons.name.usual', {
                isUsual: season.name === season.usualName,
                seasonName: season.usualName,
                batchCount: season.batches,
              })}
            </span>
          </span>
          {open === season.id ? (
            <NameForm
              season={season}
              onDone={() => {
                setOpen(undefined);
                onNamed();
              }}
            />
          ) : (
            <May to="keeper">
              <button type="button" class="plain" onClick={() => setOpen(season.id)}>
                {text('page-seasons.name', { seasonName: season.usualName })}
              </button>
            </May>
          )}
        </li>
      ))}
    </ul>
  );
}

function NameForm({ season, onDone }: { readonly season: SeasonView; readonly onDone: () => void }) {
  const { text } = useSeasonWords();
  const mutation = useMutation();
  const [name, setName] = useState(season.name === season.usualName ? '' : season.name);
  const save = async (wanted: string | null) => {
    if (await mutation.run(() => nameSeason(season.id, wanted))) onDone();
  };
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        void save(name.trim() === '' ? null : name.trim());
      }}
    >
      <TextField
        label={text('page-seasons.name.of', { seasonName: season.usualName })}
        value={name}
        onValue={setName}
        hint={text('page-seasons.name.hint')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy}>
        {text('page-seasons.name.keep')}
      </button>
    </form>
  );
}
