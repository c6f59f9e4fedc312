/** The channels by which a person is notified, each with a test. */
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

interface ChannelsPartProps {
  readonly notifications: NotificationsAnswer;
  readonly draft: Preferences;
  readonly saved: Preferences;
  readonly change: (part: Partial<Preferences>) => void;
  readonly refresh: () => Promise<void>;
  readonly fieldError: (pointer: string) => string | undefined;
}

export function ChannelsPart({ notifications, draft, saved, change, refresh, fieldError }: ChannelsPartProps) {
  const { email, webhook, push } = draft;
  return (
    <Part id="channels" title="Channels">
      <h3 class="notifications-title">On this device and others</h3>
      <Tick label="Notify my devices" checked={push.on} onChange={(on) => change({ push: { on } })} />
      <Devices notifications={notifications} refresh={refresh} />
      {notifications.devices.length > 0 && <TestButton channel="push" label="Send my devices a test" />}

      <h3 class="notifications-title">By e-mail</h3>
      {!notifications.canMail && (
        <p class="hint">
          No mail server is set up yet: whoever runs the server sets <code>BRANHEARTH_SMTP_URL</code> and{' '}
          <code>BRANHEARTH_MAIL_FROM</code>.
        </p>
      )}
      <Tick label="Tell me by e-mail" checked={email.on} onChange={(on) => change({ email: { ...email, on } })} />
      <TextField
        label="E-mail address"
        value={email.address}
        error={fieldError('/email/address')}
        onValue={(address) => change({ email: { on: address !== '' && (email.on || email.address === ''), address } })}
      />
      {email.address !== saved.email.address && email.address !== '' && (
        <p class="hint">
          Once you keep these settings, a code is sent to it: nothing else goes there before you enter that.
        </p>
      )}
      {notifications.canMail && email.address === saved.email.address && (
        <MailStanding mail={notifications.mail} address={saved.email.address} refresh={refresh} />
      )}
      {notifications.canMail && ['confirmed', 'set-by-server'].includes(notifications.mail.standing) && (
        <TestButton channel="email" label="Send me a test e-mail" />
      )}

      <h3 class="notifications-title">By webhook</h3>
      <p class="hint">For your own programs: each warning as signed JSON to an address of yours.</p>
      <Tick label="Call my webhook" checked={webhook.on} onChange={(on) => change({ webhook: { ...webhook, on } })} />
      <TextField
        label="Webhook address"
        value={webhook.url}
        mono
        placeholder="https://"
        error={fieldError('/webhook/url')}
        onValue={(url) => change({ webhook: { on: url !== '' && (webhook.on || webhook.url === ''), url } })}
      />
      {saved.webhook.url !== '' && (
        <>
          <Secret />
          <TestButton channel="webhook" label="Send my webhook a test" />
        </>
      )}
      {!notifications.hasPublicAddress && (
        <p class="hint">
          Messages carry no link yet: whoever runs the server sets <code>BRANHEARTH_PUBLIC_URL</code> to the address at
          which phones reach these pages.
        </p>
      )}
    </Part>
  );
}

const stateWords: Record<Exclude<DeviceState, 'ready' | 'subscribed'>, string> = {
  'other-keys':
    'This device was added with keys that this server no longer uses, so no message reaches it. Add it again.',
  forbidden: 'This device does not allow notifications of these pages: allow them in the browser’s settings first.',
  'not-here':
    'This browser takes no notifications. On an iPhone put the pages on the home screen first, and open them from there.',
  'not-safe': 'Notifications need the pages over https://, or on the very machine that runs the server.',
};

function Devices({ notifications, refresh }: Pick<ChannelsPartProps, 'notifications' | 'refresh'>) {
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
                  {device.lastOkAt
                    ? `, last notified ${nearTime(Date.parse(device.lastOkAt), nowMs, reader)}`
                    : ', not notified yet'}
                </span>
              </span>
              <button
                type="button"
                disabled={mutation.busy}
                onClick={() => mutation.run(() => removeDevice(device.id).then(refresh))}
              >
                Remove<span class="unseen"> {device.label}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {state !== undefined && state !== 'ready' && state !== 'subscribed' && <p class="hint">{stateWords[state]}</p>}
      {(state === 'ready' || state === 'subscribed' || state === 'other-keys') && (
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => subscribeThisDevice(notifications.pushKey).then(refresh))}
        >
          {state === 'subscribed' && notifications.devices.length > 0
            ? 'Sign up this device again'
            : 'Notify this device'}
        </button>
      )}
      <Refusal error={mutation.error} />
    </>
  );
}

function Secret() {
  const [secret, setSecret] = useState<string>();
  const mutation = useMutation();
  return (
    <div class="secret">
      {secret !== undefined && (
        <p>
          Shown once, copy it now: <code>{secret}</code>
        </p>
      )}
      <button
        type="button"
        disabled={mutation.busy}
        onClick={() => mutation.run(() => renewSecret().then((answer) => setSecret(answer.secret)))}
      >
        Make a new signing secret
      </button>
      <p class="hint">Signed as the Standard Webhooks specification has it; the secret before stops being used.</p>
      <Refusal error={mutation.error} />
    </div>
  );
}
