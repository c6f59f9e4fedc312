/** Who was notified of a warning, when, and how it went. */
import type { MessageView } from '../../../../shared/contracts/notifications.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { getSentNotifications } from './notifications-api.ts';
import { channelWords, detailOf, messageWords } from './sent-words.ts';
import './notifications.css';
import { useSentWords } from './use-sent-words.ts';

interface SentListProps {
  readonly alarmId: string;
  /** Changes when it should be fetched anew. */
  readonly state: string;
  readonly site: string;
}

export function SentList({ alarmId, state, site }: SentListProps) {
  const { text, rich } = useSentWords();
  const { value, error } = useQuery(`${alarmId} ${state}`, () => getSentNotifications(alarmId));
  const reader = useReader(site);
  const nowMs = useServerNow();
  const time = (at: string) => nearTime(Date.parse(at), nowMs, reader);
  if (error !== undefined) return <Refusal error={error} />;
  if (!value) return <p class="quiet">{text('page-sent.loading')}</p>;
  const sent = value.notices.filter(({ messages }) => messages.length > 0);
  if (sent.length === 0) return <p class="quiet">{text('page-sent.nobody')}</p>;
  return (
    <ol class="sent-list">
      {sent.map((notice) => (
        <li key={notice.id}>
          <p>
            {rich('page-sent.notice', {
              strong: (inner) => <b>{inner}</b>,
              reasonText: text(`page-sent.reason.${notice.reason}`),
              isOfSite: notice.about === 'site',
              whenText: time(notice.at),
            })}
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
  const words = useSentWords();
  const { text, rich } = words;
  const { attempts } = message;
  return (
    <li class={message.state === 'given-up' ? 'message-lost' : undefined}>
      {text('page-sent.message', {
        personName: message.person,
        channelText: channelWords(message.channel, words),
        addressText: message.address,
        stateText: messageWords(message, time, words),
      })}
      {attempts.length > 1 && (
        <details class="more">
          <summary>
            {rich('page-sent.attempts', {
              tryCount: attempts.length,
              aloud: (inner) => <span class="unseen">{inner}</span>,
              personName: message.person,
            })}
          </summary>
          <ol>
            {attempts.map((attempt) => (
              <li key={attempt.number}>
                {text('page-sent.attempt', {
                  timeText: time(attempt.at),
                  outcome: attempt.outcome === 'refused' ? 'other' : attempt.outcome,
                  detailText: detailOf(attempt),
                })}
              </li>
            ))}
          </ol>
        </details>
      )}
    </li>
  );
}
