/** Who was notified of a warning, when, and how it went. */
import type { MessageView } from '../../../../shared/contracts/notifications.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { getSentNotifications } from './notifications-api.ts';
import { channelNames, messageWords, reasonNames } from './sent-words.ts';
import './notifications.css';

interface SentListProps {
  readonly alarmId: string;
  /** Changes when it should be fetched anew. */
  readonly state: string;
  readonly site: string;
}

export function SentList({ alarmId, state, site }: SentListProps) {
  const { value, error } = useQuery(`${alarmId} ${state}`, () => getSentNotifications(alarmId));
  const reader = useReader(site);
  const nowMs = useServerNow();
  const time = (at: string) => nearTime(Date.parse(at), nowMs, reader);
  if (error !== undefined) return <Refusal error={error} />;
  if (!value) return <p class="quiet">Fetching…</p>;
  const sent = value.notices.filter(({ messages }) => messages.length > 0);
  if (sent.length === 0)
    return <p class="quiet">Nobody was notified: nobody who wants this has set up e-mail, push or a webhook.</p>;
  return (
    <ol class="sent-list">
      {sent.map((notice) => (
        <li key={notice.id}>
          <p>
            <b>{reasonNames[notice.reason]}</b>
            {notice.about === 'site' && ' with its whole site'}, {time(notice.at)}
          </p>
          <ul>
            {notice.messages.map((message) => (
              <MessageLine key={message.id} message={message} time={time} />
            ))}
          </ul>
        </li>
      ))}
    </ol>
  );
}

interface MessageLineProps {
  readonly message: MessageView;
  readonly time: (at: string) => string;
}

function MessageLine({ message, time }: MessageLineProps) {
  const { attempts } = message;
  return (
    <li class={message.state === 'given-up' ? 'message-lost' : undefined}>
      {message.person}, by {channelNames[message.channel]} ({message.address}): {messageWords(message, time)}
      {attempts.length > 1 && (
        <details class="more">
          <summary>
            {attempts.length} attempts<span class="unseen"> to reach {message.person}</span>
          </summary>
          <ol>
            {attempts.map((attempt) => (
              <li key={attempt.number}>
                {time(attempt.at)}: {attempt.outcome}, {attempt.detail}
              </li>
            ))}
          </ol>
        </details>
      )}
    </li>
  );
}
