/** The loud place for what could not be delivered. */

import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { getUndelivered, sayUndeliveredSeen } from './notifications-api.ts';
import './notifications.css';
import { channelWords, reasonOf } from './sent-words.ts';
import { useSentWords } from './use-sent-words.ts';

export function Undelivered() {
  const words = useSentWords();
  const { text, rich } = words;
  const { value, refresh } = useQuery('undelivered', getUndelivered);
  const mutation = useMutation();
  const nowMs = useServerNow();
  const reader = useReader(undefined);
  if (!value || value.messages.length === 0) return null;
  const { messages } = value;
  return (
    <section class="undelivered" aria-labelledby="undelivered">
      <h2 id="undelivered">{text('page-sent.lost', { messageCount: messages.length })}</h2>
      <ul>
        {messages.map((message) => (
          <li key={message.id}>
            <p>
              {rich('page-sent.lost.one', {
                strong: (inner) => <b>{inner}</b>,
                personName: message.person,
                channelText: channelWords(message.channel, words),
                addressText: message.address,
                whenText: nearTime(Date.parse(message.doneAt ?? message.madeAt), nowMs, reader),
                reasonText: reasonOf(message) ?? text('page-sent.state.given-up.why'),
              })}
            </p>
            <p class="quiet">{message.sentence}</p>
            <div class="buttons">
              {message.pileId && (
                <a class="button" href={`/piles/${encodeURIComponent(message.pileId)}`}>
                  {text('page-sent.lost.pile')}
                </a>
              )}
              <May to="keeper">
                <button
                  type="button"
                  disabled={mutation.busy}
                  onClick={() => mutation.run(() => sayUndeliveredSeen(message.id).then(refresh))}
                >
                  {rich('page-sent.lost.seen', {
                    aloud: (inner) => <span class="unseen">{inner}</span>,
                    personName: message.person,
                  })}
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
