/**
 * web/telling/undelivered.tsx: the loud place for what could not be delivered.
 */
import { nearTime } from '../format/local-time.ts';
import { useHouseNow, useReader } from '../live/use-house.ts';
import { Refusal } from '../parts/forms.tsx';
import { useAnswer } from '../parts/use-answer.ts';
import { useDeed } from '../parts/use-deed.ts';
import { May } from '../people/only-for.tsx';
import { getUndelivered, sayUndeliveredSeen } from './telling-api.ts';
import { wayNames } from './told-words.ts';
import './telling.css';

export function Undelivered() {
  const { value, refresh } = useAnswer('undelivered', getUndelivered);
  const deed = useDeed();
  const nowMs = useHouseNow();
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
              <b>{message.person}</b> was not told by {wayNames[message.way]} ({message.address}),{' '}
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
                  disabled={deed.busy}
                  onClick={() => deed.run(() => sayUndeliveredSeen(message.id).then(refresh))}
                >
                  I have seen this<span class="unseen"> about {message.person}</span>
                </button>
              </May>
            </div>
          </li>
        ))}
      </ul>
      <Refusal error={deed.error} />
    </section>
  );
}
