/** My notifications: by which channels, of what, when; the order of each site; what did not arrive. */
import { useEffect, useState } from 'preact/hooks';
import type { NotificationsAnswer } from '../../../../shared/contracts/notifications.ts';
import type { Preferences } from '../../../../shared/notifications.ts';
import { ApiProblem } from '../../data/client.ts';
import { refreshHealth } from '../../data/live/refresh-health.ts';
import { useMay } from '../../data/me.ts';
import { readerOf } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { ChannelsPart } from './channels-part.tsx';
import { Escalations } from './escalations.tsx';
import { getNotifications, savePreferences, sendMailCode } from './notifications-api.ts';
import { ServerNotifications } from './server-address.tsx';
import { Undelivered } from './undelivered.tsx';
import { WhatPart } from './what-part.tsx';
import { WhenPart } from './when-part.tsx';
import './notifications.css';

export function NotificationsPage() {
  const heading = usePage('My notifications');
  const { value, error, refresh: fetchAgain } = useQuery('notifications', getNotifications);
  /** Whoever changed their notifications may be the first who can be. */
  const refresh = async () => {
    await fetchAgain();
    await refreshHealth();
  };
  const mayOwn = useMay('owner');
  const isNobody = error instanceof ApiProblem && error.problem.status === 409;
  return (
    <div class="page narrow notifications">
      <h1 ref={heading} tabIndex={-1}>
        My notifications
      </h1>
      <Undelivered />
      {isNobody ? <ByToken /> : <Refusal error={error} />}
      {value === undefined && error === undefined && <p class="quiet">Fetching…</p>}
      {value && <Mine key={value.person.id} notifications={value} refresh={refresh} />}
      {(value || isNobody) && <Escalations isOwner={mayOwn} />}
      {(value || isNobody) && (
        <May to="owner">
          <ServerNotifications />
        </May>
      )}
    </div>
  );
}

/** The token of the environment stands for no person, once there are people. */
function ByToken() {
  return (
    <p class="lead">
      You use the server’s token, which has no person to notify. To choose how you are notified, forget it under{' '}
      <a href="/settings">Settings</a> and sign in by name.
    </p>
  );
}

interface MineProps {
  readonly notifications: NotificationsAnswer;
  readonly refresh: () => Promise<void>;
}

function Mine({ notifications, refresh }: MineProps) {
  const [draft, setDraft] = useState<Preferences>(() => inThisZone(notifications.preferences));
  const [saved, setSaved] = useState(notifications.preferences);
  const mutation = useMutation();
  useEffect(() => setSaved(notifications.preferences), [notifications.preferences]);
  // The zone alone is no change of theirs, as long as nothing hangs on it; it is kept with the first one that is.
  const asSaved = saved.quiet === null && saved.summaryAtMin === null ? inThisZone(saved) : saved;
  const isChanged = JSON.stringify(draft) !== JSON.stringify(asSaved);
  const change = (part: Partial<Preferences>) => setDraft((before) => ({ ...before, ...part }));
  const save = () =>
    mutation.run(async () => {
      const answer = await savePreferences({ ...draft, hour12: readerOf('mine', null).hour12 });
      const { standing, sentAt } = answer.mail;
      // The first code goes out by itself; should that be too many by now, the page offers it.
      if (answer.canMail && standing === 'waiting' && sentAt === null) await sendMailCode().catch(() => undefined);
      setDraft(answer.preferences);
      setSaved(answer.preferences);
      await refresh();
    });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <p class="lead">{reachWords(notifications)}</p>
      <ChannelsPart
        notifications={notifications}
        draft={draft}
        saved={saved}
        change={change}
        refresh={refresh}
        fieldError={mutation.fieldError}
      />
      <WhatPart draft={draft} change={change} isOwner={notifications.person.isOwner} />
      <WhenPart draft={draft} change={change} fieldError={mutation.fieldError} />
      <div class={isChanged ? 'save-bar' : undefined}>
        <button type="submit" class="primary" disabled={mutation.busy || !isChanged}>
          {isChanged ? 'Save changes' : 'Saved'}
        </button>
        <Refusal error={mutation.error} />
      </div>
    </form>
  );
}

/** A person who never set a zone means the one of the device they set it from. */
function inThisZone(preferences: Preferences): Preferences {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return preferences.timeZone === 'UTC' && own ? { ...preferences, timeZone: own } : preferences;
}

function reachWords({ person, preferences, devices, canMail, mail }: NotificationsAnswer): string {
  const channels = [
    preferences.push.on && devices.length > 0 && (devices.length === 1 ? 'one device' : `${devices.length} devices`),
    preferences.email.on && canMail && mail.goesTo !== null && 'e-mail',
    preferences.webhook.on && preferences.webhook.url !== '' && 'a webhook',
  ].filter((channel) => channel !== false);
  const isServer = person.id === 'server';
  if (channels.length === 0) {
    return `${isServer ? 'The server’s warnings reach nobody' : 'Warnings do not reach you'} yet: set up at least one channel below.`;
  }
  return isServer
    ? `The server’s warnings go out by ${channels.join(' and ')}.`
    : `You are notified by ${channels.join(' and ')}.`;
}
