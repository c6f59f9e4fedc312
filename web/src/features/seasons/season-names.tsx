/** What the grower calls a season. */
import { useState } from 'preact/hooks';
import type { SeasonView } from '../../../../shared/contracts/seasons.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital, counted } from '../../ui/format/words.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { nameSeason } from './season-api.ts';
import './season.css';

interface SeasonNamesProps {
  readonly seasons: readonly SeasonView[];
  readonly onNamed: () => void;
}

export function SeasonNames({ seasons, onNamed }: SeasonNamesProps) {
  const [open, setOpen] = useState<string>();
  return (
    <ul class="season-names">
      {seasons.map((season) => (
        <li key={season.id}>
          <span>
            <b>{capital(season.name)}</b>
            <span class="quiet">
              {' '}
              {season.name === season.usualName ? '' : `${season.usualName}, `}
              {counted(season.batches, 'batch', 'batches')}
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
                Name {season.usualName}
              </button>
            </May>
          )}
        </li>
      ))}
    </ul>
  );
}

function NameForm({ season, onDone }: { readonly season: SeasonView; readonly onDone: () => void }) {
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
        label={`Name of ${season.usualName}`}
        value={name}
        onValue={setName}
        hint="Empty gives the usual name back."
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy}>
        Keep the name
      </button>
    </form>
  );
}
