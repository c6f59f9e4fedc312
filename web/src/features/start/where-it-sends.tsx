/** For a device that sends already: the broker's address, a key with its QR code, and what came of it. */
import { useState } from 'preact/hooks';
import type { MadeKey } from '../../../../shared/contracts/keys.ts';
import { useFirstMessage } from '../../data/first-message.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { usualSite } from '../../data/usual-site.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { getKeys, makeKey } from '../keys/keys-api.ts';
import { MadeKeyView } from '../keys/made-key.tsx';
import { useKeyWords } from '../keys/use-key-words.ts';
import { FirstMessage } from './first-message.tsx';
import { useFirstWords } from './use-first-words.ts';
import './first-message.css';

export function WhereItSends() {
  const { text, rich } = useFirstWords();
  const { value: answer, error } = useFirstMessage();
  if (!answer) return error === undefined ? null : <Refusal error={error} />;
  const { host, port, tls, onlyHere } = answer.broker;
  return (
    <>
      <dl class="broker-facts">
        <dt>{text('page-first.server')}</dt>
        <dd>
          <code>{host}</code>
        </dd>
        <dt>{text('page-first.port')}</dt>
        <dd>
          <code>{port}</code>
        </dd>
        <dt>{text('page-first.tls')}</dt>
        <dd>{text('page-first.tls.on', { isTls: tls })}</dd>
      </dl>
      {onlyHere && (
        <p class="caution">{rich('page-first.only-here', { link: (inner) => <a href="/reach">{inner}</a> })}</p>
      )}
      <May to="owner" otherwise={<p>{text('page-first.key.ask')}</p>}>
        <KeyForIt />
      </May>
      <FirstMessage answer={answer} />
    </>
  );
}

/** Shown again to whoever goes on to another page and comes back; it is gone with the page, with a sign-out and once it was copied. */
let shownKey: MadeKey | undefined;
if (typeof window !== 'undefined')
  addEventListener('branhearth:signed-out', () => {
    shownKey = undefined;
  });

function KeyForIt() {
  const { text } = useFirstWords();
  const keys = useKeyWords();
  const site = useInstallation(({ sites }) => sites[0]?.id ?? usualSite);
  const mutation = useMutation();
  const [made, setMade] = useState(shownKey);
  const show = (key: MadeKey | undefined) => {
    shownKey = key;
    setMade(key);
  };
  if (made) return <MadeKeyView made={made} onDone={() => show(undefined)} />;
  const make = async () => {
    const name = keys.text('page-keys.name.site', { siteName: site });
    show(await makeKey({ name, site, probe: null, foreign: [], hears: 'own' }));
  };
  return (
    <>
      <p>{text('page-first.key.why')}</p>
      <UnusedKey site={site} />
      <p>
        <button type="button" disabled={mutation.busy} onClick={() => void mutation.run(make)}>
          {text('page-first.key.do')}
        </button>
      </p>
      <Refusal error={mutation.error} />
    </>
  );
}

/** One that was made here before, and whose password nobody may have written down. */
function UnusedKey({ site }: { readonly site: string }) {
  const { rich } = useFirstWords();
  const nowMs = useServerNow();
  const { value } = useQuery('keys', getKeys);
  const unused = value?.keys.findLast(
    (key) => key.site === site && key.probe === null && key.revokedAt === null && key.seen === null,
  );
  // A broker of one’s own does not say who uses a key.
  if (!unused || value?.authPolicy !== 'embedded') return null;
  return (
    <p>
      {rich('page-first.key.unused', {
        keyName: unused.name,
        madeAgoMs: Math.max(0, nowMs - Date.parse(unused.madeAt)),
        link: (inner) => <a href="/keys">{inner}</a>,
      })}
    </p>
  );
}
