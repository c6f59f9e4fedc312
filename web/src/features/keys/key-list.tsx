/** The keys there are, what each allows and who uses it; and the way to revoke one. */
import { useState } from 'preact/hooks';
import type { Key } from '../../../../shared/contracts/keys.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { reachWords, seenWords } from './key-words.ts';
import { revokeKey } from './keys-api.ts';
import './keys.css';
import { useKeyWords } from './use-key-words.ts';

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
  const words = useKeyWords();
  const { text, rich } = words;
  const mutation = useMutation();
  const nowMs = useServerNow();
  const [asks, setAsks] = useState(false);
  const revoke = () => mutation.run(() => revokeKey(shown.id).then(onChange));
  return (
    <li>
      <div>
        <h3>{shown.name}</h3>
        <p>{reachWords(shown, words)}</p>
        <p class="quiet">
          {seenWords(shown, nowMs, words)}{' '}
          {rich('page-keys.made', {
            userText: shown.id,
            mono: (inner) => <code>{inner}</code>,
            madeWhenMs: Date.parse(shown.madeAt),
            isKnown: shown.madeBy !== null,
            makerName: shown.madeBy ?? '',
          })}
        </p>
      </div>
      {shown.revokedAt === null && !asks && (
        <button
          type="button"
          aria-label={text('page-keys.revoke.of', { keyName: shown.name })}
          onClick={() => setAsks(true)}
        >
          {text('page-keys.revoke')}
        </button>
      )}
      {asks && shown.revokedAt === null && (
        <div class="key-ask">
          <p>{text('page-keys.revoke.asked')}</p>
          <button type="button" class="primary" disabled={mutation.busy} onClick={revoke}>
            {text('page-keys.revoke.yes')}
          </button>
          <button type="button" onClick={() => setAsks(false)}>
            {text('page-keys.revoke.no')}
          </button>
        </div>
      )}
      <Refusal error={mutation.error} />
    </li>
  );
}
