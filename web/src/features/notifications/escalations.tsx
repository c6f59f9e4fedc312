/** For each site, who is notified first, and to whom a warning goes on when nobody acknowledges it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { NotificationChannel } from '../../../../shared/notifications.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { getEscalations, getRecipients, saveOrder } from './notifications-api.ts';
import { channelWords } from './sent-words.ts';
import { useSentWords } from './use-sent-words.ts';
import './notifications.css';
import { useNotificationWords } from './use-notification-words.ts';

const firstAfterMin = 15;

export function Escalations({ isOwner }: { readonly isOwner: boolean }) {
  const { text } = useNotificationWords();
  const sites = useInstallation((installation) => installation.sites);
  const { value: people } = useQuery('notification people', getRecipients);
  const { value: escalations, refresh } = useQuery('escalations', getEscalations);
  if (!people || !escalations || sites.length === 0 || people.people.length < 2) return null;
  return (
    <Part id="escalations" title={text('page-notifications.order')}>
      <p>{text('page-notifications.order.says')}</p>
      {sites.map(({ id, name }) => {
        const order = escalations.escalations.find((one) => one.site === id) ?? {
          personIds: [],
          afterMin: firstAfterMin,
        };
        return (
          <SiteOrder
            key={`${id} ${order.personIds.join(' ')} ${order.afterMin}`}
            site={id}
            name={name}
            order={order}
            people={people.people}
            isOwner={isOwner}
            refresh={refresh}
          />
        );
      })}
    </Part>
  );
}

interface SiteOrderProps {
  readonly site: string;
  readonly name: string;
  readonly order: { readonly personIds: readonly string[]; readonly afterMin: number };
  readonly people: readonly {
    readonly id: string;
    readonly name: string;
    readonly channels: readonly NotificationChannel[];
  }[];
  readonly isOwner: boolean;
  readonly refresh: () => Promise<void>;
}

/** The order as it is being changed, and keeping it. */
function useOrderDraft({ site, order, people, refresh }: SiteOrderProps) {
  const { text } = useNotificationWords();
  const [personIds, setPersonIds] = useState(order.personIds);
  const [after, setAfter] = useState(String(order.afterMin));
  const sent = useSentWords();
  const mutation = useMutation();
  const others = people.filter(({ id }) => !personIds.includes(id));
  const nameOf = (id: string) => people.find((one) => one.id === id)?.name ?? text('page-notifications.order.gone');
  const channelsOf = (id: string) =>
    people.find((one) => one.id === id)?.channels.map((channel) => channelWords(channel, sent)) ?? [];
  const move = (place: number) => setPersonIds(swapped(personIds, place));
  const isChanged = personIds.join() !== order.personIds.join() || after !== String(order.afterMin);
  const keep = () =>
    mutation.run(() => saveOrder(site, { personIds: [...personIds], afterMin: Number(after) }).then(refresh));
  return { personIds, setPersonIds, after, setAfter, others, nameOf, channelsOf, move, isChanged, keep, mutation };
}

const aloud = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;

function SiteOrder(props: SiteOrderProps) {
  const { text, rich } = useNotificationWords();
  const { site, name, isOwner } = props;
  const { personIds, setPersonIds, nameOf, channelsOf, move, ...draft } = useOrderDraft(props);
  const { others, after, setAfter, isChanged, keep, mutation } = draft;
  return (
    <section class="order" aria-labelledby={`order-${site}`}>
      <h3 class="notifications-title" id={`order-${site}`}>
        {name}
      </h3>
      {personIds.length === 0 && <p class="quiet">{text('page-notifications.order.none')}</p>}
      <ol class="order-list">
        {personIds.map((id, place) => (
          <li key={id}>
            <span>
              {nameOf(id)}
              <span class="quiet">
                {text('page-notifications.order.channels', {
                  hasChannel: channelsOf(id).length > 0,
                  channelsText: channelsOf(id).join(', '),
                })}
              </span>
            </span>
            {isOwner && (
              <span class="buttons">
                {place > 0 && (
                  <button type="button" onClick={() => move(place - 1)}>
                    {rich('page-notifications.order.earlier', { personName: nameOf(id), aloud })}
                  </button>
                )}
                <button type="button" onClick={() => setPersonIds(personIds.filter((one) => one !== id))}>
                  {rich('page-notifications.order.remove', { personName: nameOf(id), aloud })}
                </button>
              </span>
            )}
          </li>
        ))}
      </ol>
      {isOwner && (
        <>
          <div class="buttons">
            {others.map((person) => (
              <button key={person.id} type="button" onClick={() => setPersonIds([...personIds, person.id])}>
                {text('page-notifications.order.add', { personName: person.name })}
              </button>
            ))}
          </div>
          {personIds.length > 1 && (
            <TextField
              label={text('page-notifications.order.after')}
              unit={text('page-notifications.order.minutes')}
              value={after}
              inputMode="numeric"
              error={mutation.fieldError('/afterMin')}
              onValue={setAfter}
            />
          )}
          {isChanged && (
            <button type="button" class="primary" disabled={mutation.busy} onClick={() => void keep()}>
              {rich('page-notifications.order.save', { siteName: name, aloud })}
            </button>
          )}
          <Refusal error={mutation.error} />
        </>
      )}
    </section>
  );
}

function swapped(ids: readonly string[], place: number): string[] {
  const next = [...ids];
  const [moved] = next.splice(place + 1, 1);
  if (moved !== undefined) next.splice(place, 0, moved);
  return next;
}
