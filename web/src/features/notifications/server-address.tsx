/** What owners set for the whole server: a heartbeat, and inner addresses that may be called. */
import { useState } from 'preact/hooks';
import { healthTexts } from '../../../../shared/messages/made/en/health.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { getServerNotifications, saveServerNotifications } from './notifications-api.ts';
import { useNotificationWords } from './use-notification-words.ts';

const exampleUrl = 'https://';
const renderHeartbeat = rendererOf(healthTexts);

type Answer = Awaited<ReturnType<typeof getServerNotifications>>;

export function ServerNotifications() {
  const { value, refresh } = useQuery('server notifications', getServerNotifications);
  if (!value) return null;
  const key = `${value.heartbeatUrl} ${value.allowedAddresses.join(' ')}`;
  return <InstallationForm key={key} value={value} refresh={refresh} />;
}

function InstallationForm({ value, refresh }: { readonly value: Answer; readonly refresh: () => Promise<void> }) {
  const { text } = useNotificationWords();
  const said = useSaid(renderHeartbeat);
  const [url, setUrl] = useState(value.heartbeatUrl ?? '');
  const [allowed, setAllowed] = useState(value.allowedAddresses.join('\n'));
  const mutation = useMutation();
  const save = () =>
    mutation.run(() =>
      saveServerNotifications({
        heartbeatUrl: url.trim() === '' ? null : url.trim(),
        allowedAddresses: allowed
          .split('\n')
          .map((line) => line.trim())
          .filter((line) => line !== ''),
      }).then(refresh),
    );
  return (
    <Part id="server-notifications" title={text('page-notifications.server')}>
      <TextField
        label={text('page-notifications.server.heartbeat')}
        hint={text('page-notifications.server.heartbeat.hint')}
        value={url}
        mono
        placeholder={exampleUrl}
        error={mutation.fieldError('/heartbeatUrl')}
        onValue={setUrl}
      />
      <p class="quiet">
        {text('page-notifications.server.heartbeat.now', { stateText: said(value.heartbeat, 'detail') })}
      </p>
      <Field
        label={text('page-notifications.server.allowed')}
        hint={text('page-notifications.server.allowed.hint')}
        error={mutation.fieldError('/allowedAddresses')}
      >
        {(ids) => (
          <textarea
            {...ids}
            class="mono"
            rows={3}
            spellcheck={false}
            value={allowed}
            onInput={(event) => setAllowed(event.currentTarget.value)}
          />
        )}
      </Field>
      <button type="button" disabled={mutation.busy} onClick={() => void save()}>
        {text('page-notifications.server.save')}
      </button>
      <Refusal error={mutation.error} />
    </Part>
  );
}
