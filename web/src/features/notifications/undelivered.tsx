/** The loud place for what could not be delivered. */

import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { getUndelivered, sayUndeliveredSeen } from './notifications-api.ts';
import { channelNames } from './sent-words.ts';
import './notifications.css';

export function Undelivered() {
  const { value, refresh } = useQuery('undelivered', getUndelivered);
  const mutation = useMutation();
  const nowMs = useServerNow();
  const reader = useReader(undefined);
  if (!value || value.messages.length === 0) return null;
  const { messages } = value;
  return (
    <section class="undelivered" aria-labelledby="undelivered">
      <h2 id="undelivered">
        {messages.length === 1 ? 'A message did not arrive' : `${messages.length} messages did not arrive`}
      </h2>
      <ul>
        {messages.map((message) => (
          <li key={message.id}>
            <p>
              <b>{message.person}</b> was not notified by {channelNames[message.channel]} ({message.address}),{' '}
              {nearTime(Date.parse(message.doneAt ?? message.madeAt), nowMs, reader)}: {message.reason}
            </p>
            <p class="quiet">{message.sentence}</p>
            <div class="buttons">
              {message.pileId && (
                <a class="button" href={`/piles/${encodeURIComponent(message.pileId)}`}>
                  See the pile
                </a>
              )}
              <May to="keeper">
                <button
                  type="button"
                  disabled={mutation.busy}
                  onClick={() => mutation.run(() => sayUndeliveredSeen(message.id).then(refresh))}
                >
                  I have seen this<span class="unseen"> about {message.person}</span>
                </button>
              </May>
            </div>
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
    </section>
  );
}
