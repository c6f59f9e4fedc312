/** My notifications: by which channels, of what, when; the order of each site; what did not arrive. */
import { useEffect, useState } from 'preact/hooks';
import type { NotificationsAnswer } from '../../../../shared/contracts/notifications.ts';
import { regionOf } from '../../../../shared/messages/language.ts';
import { serviceOf } from '../../../../shared/notification-services/services.ts';
import type { Preferences } from '../../../../shared/notifications.ts';
import { ApiProblem } from '../../data/client.ts';
import { language } from '../../data/language.ts';
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
import { ServicesPart } from './services-part.tsx';
import { Undelivered } from './undelivered.tsx';
import { type NotificationWords, useNotificationWords } from './use-notification-words.ts';
import { WhatPart } from './what-part.tsx';
import { WhenPart } from './when-part.tsx';
import './notifications.css';

export function NotificationsPage() {
  const { text } = useNotificationWords();
  const heading = usePage(text('page-notifications.title'));
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
        {text('page-notifications.title')}
      </h1>
      <Undelivered />
      {isNobody ? <ByToken /> : <Refusal error={error} />}
      {value === undefined && error === undefined && <p class="quiet">{text('page-notifications.loading')}</p>}
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
  const { rich } = useNotificationWords();
  return (
    <p class="lead">{rich('page-notifications.by-token', { link: (inner) => <a href="/settings">{inner}</a> })}</p>
  );
}

interface MineProps {
  readonly notifications: NotificationsAnswer;
  readonly refresh: () => Promise<void>;
}

function Mine({ notifications, refresh }: MineProps) {
  const words = useNotificationWords();
  const { text } = words;
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
      <p class="lead">{reachWords(notifications, words, language)}</p>
      <ChannelsPart
        notifications={notifications}
        draft={draft}
        saved={saved}
        change={change}
        refresh={refresh}
        fieldError={mutation.fieldError}
      />
      <ServicesPart services={notifications.services} refresh={refresh} />
      <WhatPart draft={draft} change={change} isOwner={notifications.person.isOwner} />
      <WhenPart draft={draft} change={change} fieldError={mutation.fieldError} />
      <div class={isChanged ? 'save-bar' : undefined}>
        <button type="submit" class="primary" disabled={mutation.busy || !isChanged}>
          {text(isChanged ? 'page-notifications.save' : 'page-notifications.saved')}
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

function reachWords(
  { person, preferences, devices, services, canMail, mail }: NotificationsAnswer,
  { text }: Pick<NotificationWords, 'text'>,
  language: string,
): string {
  const channels = [
    preferences.push.on &&
      devices.length > 0 &&
      text('page-notifications.reach.devices', { deviceCount: devices.length }),
    preferences.email.on && canMail && mail.goesTo !== null && text('page-notifications.reach.email'),
    preferences.webhook.on && preferences.webhook.url !== '' && text('page-notifications.reach.webhook'),
    ...services.map(({ on, channel }) => on && serviceOf(channel).name),
  ].filter((channel) => channel !== false);
  const isServer = person.id === 'server';
  if (channels.length === 0) return text('page-notifications.reach.none', { isServer });
  const list = new Intl.ListFormat(regionOf(language), { type: 'conjunction' });
  return text('page-notifications.reach', { isServer, channelsText: list.format(channels) });
}
