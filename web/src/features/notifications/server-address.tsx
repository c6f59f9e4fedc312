/** What owners set for the whole server: a heartbeat, and inner addresses that may be called. */
import { useState } from 'preact/hooks';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { getServerNotifications, saveServerNotifications } from './notifications-api.ts';

type Answer = Awaited<ReturnType<typeof getServerNotifications>>;

export function ServerNotifications() {
  const { value, refresh } = useQuery('server notifications', getServerNotifications);
  if (!value) return null;
  const key = `${value.heartbeatUrl} ${value.allowedAddresses.join(' ')}`;
  return <InstallationForm key={key} value={value} refresh={refresh} />;
}

function InstallationForm({ value, refresh }: { readonly value: Answer; readonly refresh: () => Promise<void> }) {
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
    <Part id="server-notifications" title="The server">
      <TextField
        label="Heartbeat address"
        hint="Called every minute while readings are kept, probes are heard and piles are judged. Whatever answers there can raise the alarm when the calls stop, as when the whole machine is off."
        value={url}
        mono
        placeholder="https://"
        error={mutation.fieldError('/heartbeatUrl')}
        onValue={setUrl}
      />
      <p class="quiet">Now: {value.heartbeat.detail}.</p>
      <Field
        label="Inner addresses that messages may go to"
        hint="One host and port a line, such as 192.168.1.20:8080. Webhooks reach nothing on this machine or its network unless it stands here."
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
        Save for the server
      </button>
      <Refusal error={mutation.error} />
    </Part>
  );
}
