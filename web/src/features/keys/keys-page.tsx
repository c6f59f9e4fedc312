/** The keys by which probes connect to the broker. */
import { useState } from 'preact/hooks';
import type { KeysAnswer, MadeKey } from '../../../../shared/contracts/keys.ts';
import { reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { AuthRule } from './auth-rule.tsx';
import { KeyForm } from './key-form.tsx';
import { KeyList } from './key-list.tsx';
import { authRuleSentence } from './key-words.ts';
import { getKeys } from './keys-api.ts';
import { MadeKeyView } from './made-key.tsx';
import { MosquittoFiles } from './mosquitto-files.tsx';
import './keys.css';

export function KeysPage() {
  const heading = usePage('Keys for probes');
  const { value, error, refresh } = useQuery('keys', getKeys);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {value ? authRuleSentence(value) : 'Keys for probes'}
        </h1>
        <p class="lead">
          With a key of its own a probe speaks for itself only, and you can take the key back without touching the
          others.
        </p>
        {error !== undefined && !value && <p class="refusal">{reasonOf(error)}</p>}
      </div>
      {value && <Keys answer={value} refresh={refresh} />}
    </div>
  );
}

function Keys({ answer, refresh }: { readonly answer: KeysAnswer; readonly refresh: () => Promise<void> }) {
  const [made, setMade] = useState<MadeKey>();
  const inForce = answer.keys.filter((key) => key.revokedAt === null).reverse();
  const revoked = answer.keys.filter((key) => key.revokedAt !== null).reverse();
  return (
    <>
      <Part id="new-key" title="A new key">
        {made ? (
          <MadeKeyView made={made} onDone={() => setMade(undefined)} />
        ) : (
          <KeyForm
            onMade={(key) => {
              setMade(key);
              void refresh();
            }}
          />
        )}
      </Part>
      {inForce.length > 0 && (
        <Part id="keys" title="In force">
          <KeyList keys={inForce} onChange={refresh} />
        </Part>
      )}
      {answer.authPolicy === 'embedded' && (
        <Part id="who-needs" title="Who needs a key">
          <AuthRule answer={answer} onChange={refresh} />
        </Part>
      )}
      <Part id="own-broker" title="A broker of your own">
        <MosquittoFiles />
      </Part>
      {revoked.length > 0 && (
        <Part id="revoked" title="Revoked">
          <KeyList keys={revoked} onChange={refresh} />
        </Part>
      )}
    </>
  );
}
