/** The keys there are, what each allows and who uses it; and the way to revoke one. */
import { useState } from 'preact/hooks';
import type { Key } from '../../../../shared/contracts/keys.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { reachWords, seenWords } from './key-words.ts';
import { revokeKey } from './keys-api.ts';
import './keys.css';

interface KeyListProps {
  readonly keys: readonly Key[];
  readonly onChange: () => Promise<void>;
}

export function KeyList({ keys, onChange }: KeyListProps) {
  return (
    <ul class="key-list">
      {keys.map((key) => (
        <KeyLine key={key.id} shown={key} onChange={onChange} />
      ))}
    </ul>
  );
}

function KeyLine({ shown, onChange }: { readonly shown: Key; readonly onChange: () => Promise<void> }) {
  const mutation = useMutation();
  const nowMs = useServerNow();
  const reader = useReader();
  const [asks, setAsks] = useState(false);
  const revoke = () => mutation.run(() => revokeKey(shown.id).then(onChange));
  return (
    <li>
      <div>
        <h3>{shown.name}</h3>
        <p>{reachWords(shown)}</p>
        <p class="quiet">
          {seenWords(shown, nowMs)} User name <code>{shown.id}</code>, made{' '}
          {dayAndTime(Date.parse(shown.madeAt), reader)}
          {shown.madeBy && ` by ${shown.madeBy}`}.
        </p>
      </div>
      {shown.revokedAt === null && !asks && (
        <button type="button" aria-label={`Revoke ${shown.name}`} onClick={() => setAsks(true)}>
          Revoke
        </button>
      )}
      {asks && shown.revokedAt === null && (
        <div class="key-ask">
          <p>Every device that uses this key is disconnected at once, and nothing brings the key back.</p>
          <button type="button" class="primary" disabled={mutation.busy} onClick={revoke}>
            Revoke it
          </button>
          <button type="button" onClick={() => setAsks(false)}>
            Keep it
          </button>
        </div>
      )}
      <Refusal error={mutation.error} />
    </li>
  );
}
