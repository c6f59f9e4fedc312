/**
 * Giving a pile another name, and removing one that was laid by mistake. It never removes a record: the server refuses
 * while an entry, a warning or a batch's descent hangs on the pile.
 */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { changePile, removePile } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePileWords } from './use-pile-words.ts';
import './name-and-removal.css';

interface NameAndRemovalProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function NameAndRemoval({ pile, onChange }: NameAndRemovalProps) {
  const { text } = usePileWords();
  return (
    <Part id="name" title={text('page-pile.name.title')}>
      <Rename pile={pile} onChange={onChange} />
      <Removal pile={pile} />
    </Part>
  );
}

function Rename({ pile, onChange }: NameAndRemovalProps) {
  const { text } = usePileWords();
  const mutation = useMutation();
  const [typed, setTyped] = useState<string>();
  const isNew = typed !== undefined && typed.trim() !== '' && typed.trim() !== pile.name;
  return (
    <form
      class="form rename-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isNew) return;
        void mutation
          .run(() => changePile(pile.id, { name: typed.trim() }).then(onChange))
          .then((done) => done && setTyped(undefined));
      }}
    >
      <TextField
        label={text('page-pile.name')}
        hint={text('page-pile.name.hint')}
        value={typed ?? pile.name}
        onValue={setTyped}
        required
        error={mutation.fieldError('/name')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy || !isNew}>
        {text('page-pile.name.keep')}
      </button>
    </form>
  );
}

function Removal({ pile }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const mutation = useMutation();
  const { route } = useLocation();
  return (
    <details class="more">
      <summary>{text('page-pile.removal.title')}</summary>
      <p>{text('page-pile.removal.hint')}</p>
      <Refusal error={mutation.error} />
      <button
        type="button"
        disabled={mutation.busy}
        onClick={() =>
          mutation.run(async () => {
            await removePile(pile.id);
            route('/');
            await fetchAll();
          })
        }
      >
        {text('page-pile.removal', { pileName: pile.name })}
      </button>
    </details>
  );
}
