/** The channels by which a person is notified, each with a test. */
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { NotificationsAnswer } from '../../../../shared/contracts/notifications.ts';
import type { Preferences } from '../../../../shared/notifications.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { Tick } from '../../ui/parts/tick.tsx';
import { MailStanding } from './mail-standing.tsx';
import { removeDevice, renewSecret } from './notifications-api.ts';
import { TestButton } from './test-button.tsx';
import { type DeviceState, deviceState, subscribeThisDevice } from './this-device.ts';
import './notifications.css';
import { useNotificationWords } from './use-notification-words.ts';

interface ChannelsPartProps {
  readonly notifications: NotificationsAnswer;
  readonly draft: Preferences;
  readonly saved: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly refresh: () => Promise<void>;
  readonly fieldError: (pointer: string) => string | undefined;
}

export function ChannelsPart({ notifications, draft, saved, change, refresh, fieldError }: ChannelsPartProps) {
  const { text, rich } = useNotificationWords();
  const { email, webhook, push } = draft;
  return (
    <Part id="channels" title={text('page-notifications.channels')}>
      <h3 class="notifications-title">{text('page-notifications.push')}</h3>
      <Tick label={text('page-notifications.push.on')} checked={push.on} onChange={(on) => change({ push: { on } })} />
      <Devices notifications={notifications} refresh={refresh} />
      {notifications.devices.length > 0 && <TestButton channel="push" label={text('page-notifications.push.test')} />}

      <h3 class="notifications-title">{text('page-notifications.email')}</h3>
      {!notifications.canMail && <p class="hint">{rich('page-notifications.email.no-server', { mono })}</p>}
      <Tick
        label={text('page-notifications.email.on')}
        checked={email.on}
        onChange={(on) => change({ email: { ...email, on } })}
      />
      <TextField
        label={text('page-notifications.email.address')}
        value={email.address}
        error={fieldError('/email/address')}
        onValue={(address) => change({ email: { on: address !== '' && (email.on || email.address === ''), address } })}
      />
      {email.address !== saved.email.address && email.address !== '' && (
        <p class="hint">{text('page-notifications.email.changed')}</p>
      )}
      {notifications.canMail && email.address === saved.email.address && (
        <MailStanding mail={notifications.mail} address={saved.email.address} refresh={refresh} />
      )}
      {notifications.canMail && ['confirmed', 'set-by-server'].includes(notifications.mail.standing) && (
        <TestButton channel="email" label={text('page-notifications.email.test')} />
      )}

      <h3 class="notifications-title">{text('page-notifications.webhook')}</h3>
      <p class="hint">{text('page-notifications.webhook.hint')}</p>
      <Tick
        label={text('page-notifications.webhook.on')}
        checked={webhook.on}
        onChange={(on) => change({ webhook: { ...webhook, on } })}
      />
      <TextField
        label={text('page-notifications.webhook.address')}
        value={webhook.url}
        mono
        placeholder={exampleUrl}
        error={fieldError('/webhook/url')}
        onValue={(url) => change({ webhook: { on: url !== '' && (webhook.on || webhook.url === ''), url } })}
      />
      {saved.webhook.url !== '' && (
        <>
          <Secret />
          <TestButton channel="webhook" label={text('page-notifications.webhook.test')} />
        </>
      )}
      {!notifications.hasPublicAddress && <p class="hint">{rich('page-notifications.no-address', { mono })}</p>}
    </Part>
  );
}

const exampleUrl = 'https://';
const mono = (inner: ComponentChildren) => <code>{inner}</code>;
const aloud = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;

function Devices({ notifications, refresh }: Pick<ChannelsPartProps, 'notifications' | 'refresh'>) {
  const words = useNotificationWords();
  const { text, rich } = words;
  const [state, setState] = useState<DeviceState>();
  const mutation = useMutation();
  const nowMs = useServerNow();
  const reader = useReader(undefined);
  useEffect(() => {
    void deviceState(notifications.pushKey).then(setState);
  }, [notifications.devices.length, notifications.pushKey]);
  return (
    <>
      {notifications.devices.length > 0 && (
        <ul class="devices">
          {notifications.devices.map((device) => (
            <li key={device.id}>
              <span>
                {device.label}
                <span class="quiet">
                  {text('page-notifications.device.last', {
                    isNotified: device.lastOkAt !== null,
                    lastText: device.lastOkAt === null ? '' : nearTime(Date.parse(device.lastOkAt), nowMs, reader),
                  })}
                </span>
              </span>
              <button
                type="button"
                disabled={mutation.busy}
                onClick={() => mutation.run(() => removeDevice(device.id).then(refresh))}
              >
                {rich('page-notifications.device.remove', { deviceName: device.label, aloud })}
              </button>
            </li>
          ))}
        </ul>
      )}
      {state !== undefined && state !== 'ready' && state !== 'subscribed' && (
        <p class="hint">{text(`page-notifications.device.${state}`)}</p>
      )}
      {(state === 'ready' || state === 'subscribed' || state === 'other-keys') && (
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => subscribeThisDevice(notifications.pushKey, words).then(refresh))}
        >
          {state === 'subscribed' && notifications.devices.length > 0
            ? text('page-notifications.device.again')
            : text('page-notifications.device.add')}
        </button>
      )}
      <Refusal error={mutation.error} />
    </>
  );
}

function Secret() {
  const { text, rich } = useNotificationWords();
  const [secret, setSecret] = useState<string>();
  const mutation = useMutation();
  return (
    <div class="secret">
      {secret !== undefined && <p>{rich('page-notifications.secret.once', { secretText: secret, mono })}</p>}
      <button
        type="button"
        disabled={mutation.busy}
        onClick={() => mutation.run(() => renewSecret().then((answer) => setSecret(answer.secret)))}
      >
        {text('page-notifications.secret.new')}
      </button>
      <p class="hint">{text('page-notifications.secret.hint')}</p>
      <Refusal error={mutation.error} />
    </div>
  );
}
