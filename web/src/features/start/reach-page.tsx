/** How a probe and a phone of the same network reach this server: what to think of first, what to run, and what then. */
import { useState } from 'preact/hooks';
import { type Reach, reachSchema } from '../../../../shared/contracts/reach.ts';
import { pageReachTexts } from '../../../../shared/messages/made/en/page-reach.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useQuery } from '../../data/use-query.ts';
import { CopyText } from '../../ui/parts/copy-text.tsx';
import { Choice } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { QrCode } from '../../ui/parts/qr-code.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { type LetIn, letIn, type StartedBy, startCommand, startedBy } from './start-command.ts';
import './reach.css';

const useWords = () => usePageTexts(pageReachTexts);
const getReach = () => ask(reachSchema, '/api/reach');
const mono = (inner: preact.ComponentChildren) => <code>{inner}</code>;

export function ReachPage() {
  const { text } = useWords();
  const heading = usePage(text('page-reach.title'));
  const { value: reach, error } = useQuery('reach', getReach);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-reach.title')}
        </h1>
        {reach && (
          <p class="lead">
            {text('page-reach.now', { areProbesIn: !reach.broker.onlyHere, arePagesIn: !reach.pages.onlyHere })}{' '}
            {text('page-reach.lead')}
          </p>
        )}
        {error !== undefined && !reach && <p class="refusal">{reasonOf(error)}</p>}
      </div>
      {reach && <Guide reach={reach} />}
    </div>
  );
}

function Guide({ reach }: { readonly reach: Reach }) {
  const { text } = useWords();
  const hasBroker = reach.authPolicy === 'embedded';
  const [who, setWho] = useState<LetIn>(hasBroker ? 'both' : 'phones');
  const [how, setHow] = useState<StartedBy>('shell');
  return (
    <>
      <Part id="before" title={text('page-reach.before')}>
        <Cautions hasOwner={reach.hasOwner} />
      </Part>
      <Part id="do" title={text('page-reach.do')}>
        {hasBroker && (
          <Choice
            legend={text('page-reach.what')}
            value={who}
            choices={letIn.map((one) => [one, text(`page-reach.what.${one}`)] as const)}
            onValue={setWho}
          />
        )}
        <Choice
          legend={text('page-reach.how')}
          value={how}
          choices={startedBy.map((one) => [one, text(`page-reach.how.${one}`)] as const)}
          onValue={setHow}
        />
        <p class="reach-do">{text(`page-reach.do.${how}`)}</p>
        <CopyText label={text('page-reach.do.copy')} text={startCommand(who, how, reach.pages.tls)} />
      </Part>
      <Part id="after" title={text('page-reach.after')}>
        <Afterwards reach={reach} who={who} />
      </Part>
    </>
  );
}

function Cautions({ hasOwner }: Pick<Reach, 'hasOwner'>) {
  const { text } = useWords();
  return (
    <ul class="reach-before">
      <li>{text('page-reach.before.network')}</li>
      <li>{text('page-reach.before.plain')}</li>
      <li>{text('page-reach.before.router')}</li>
      {!hasOwner && <li>{text('page-reach.before.owner')}</li>}
      <li>{text('page-reach.before.alarm')}</li>
    </ul>
  );
}

function Afterwards({ reach: { addresses, broker, pages }, who }: { readonly reach: Reach; readonly who: LetIn }) {
  const { text, rich } = useWords();
  const [address, ...others] = addresses;
  if (address === undefined) return <p>{text('page-reach.after.none')}</p>;
  const ports = [...(who === 'phones' ? [] : [broker.port]), ...(who === 'probes' ? [] : [pages.port])];
  const keys = (inner: preact.ComponentChildren) => <a href="/keys">{inner}</a>;
  const start = (inner: preact.ComponentChildren) => <a href="/">{inner}</a>;
  return (
    <>
      {who !== 'phones' && (
        <p>{rich('page-reach.after.probes', { hostText: address, portText: String(broker.port), mono, link: keys })}</p>
      )}
      {who !== 'probes' && pages.url !== null && (
        <>
          <p>{rich('page-reach.after.phones', { urlText: pages.url, mono })}</p>
          {pages.code && <QrCode code={pages.code} label={text('page-reach.after.code')} />}
        </>
      )}
      {others.length > 0 && <p>{text('page-reach.after.others', { addressesText: others.join(', ') })}</p>}
      <p>{text('page-reach.after.firewall', { portsText: ports.join(', ') })}</p>
      <p>{rich('page-reach.after.first', { link: start })}</p>
    </>
  );
}
