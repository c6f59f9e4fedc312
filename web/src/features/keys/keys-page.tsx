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
import { authRuleCode, isInForce } from './key-words.ts';
import { getKeys } from './keys-api.ts';
import { MadeKeyView } from './made-key.tsx';
import { MosquittoFiles } from './mosquitto-files.tsx';
import './keys.css';
import { useKeyWords } from './use-key-words.ts';

export function KeysPage() {
  const { text } = useKeyWords();
  const heading = usePage(text('page-keys.title'));
  const { value, error, refresh } = useQuery('keys', getKeys);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {value
            ? text(authRuleCode(value), { keyCount: value.keys.filter(isInForce).length })
            : text('page-keys.title')}
        </h1>
        <p class="lead">{text('page-keys.lead')}</p>
        {error !== undefined && !value && <p class="refusal">{reasonOf(error)}</p>}
      </div>
      {value && <Keys answer={value} refresh={refresh} />}
    </div>
  );
}

function Keys({ answer, refresh }: { readonly answer: KeysAnswer; readonly refresh: () => Promise<void> }) {
  const { text } = useKeyWords();
  const [made, setMade] = useState<MadeKey>();
  const inForce = answer.keys.filter(isInForce).reverse();
  const revoked = answer.keys.filter((key) => !isInForce(key)).reverse();
  return (
    <>
      <Part id="new-key" title={text('page-keys.new')}>
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
        <Part id="keys" title={text('page-keys.in-force')}>
          <KeyList keys={inForce} onChange={refresh} />
        </Part>
      )}
      {answer.authPolicy === 'embedded' && (
        <Part id="who-needs" title={text('page-keys.rule')}>
          <AuthRule answer={answer} onChange={refresh} />
        </Part>
      )}
      <Part id="own-broker" title={text('page-keys.mosquitto')}>
        <MosquittoFiles />
      </Part>
      {revoked.length > 0 && (
        <Part id="revoked" title={text('page-keys.revoked')}>
          <KeyList keys={revoked} onChange={refresh} />
        </Part>
      )}
    </>
  );
}
