/** Messages that could not be used: how many, why, and the last of each. */
import { useEffect } from 'preact/hooks';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { getRefusals } from '../../data/routes.ts';
import { useQuery } from '../../data/use-query.ts';
import { ageWords } from '../../ui/format/age.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { counted } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { refusalName, renderRefusal } from './refusal-words.ts';
import './incoming.css';

const refetchEveryMs = 5_000;

export function Refusals() {
  const { value, error, refresh } = useQuery('refusals', getRefusals);
  const nowMs = useServerNow();
  const reader = useReader();
  const say = useSay(renderRefusal);
  useEffect(() => {
    const timer = setInterval(() => void refresh(), refetchEveryMs);
    return () => clearInterval(timer);
  }, []);
  if (!value) return error === undefined ? <p class="quiet">Counting…</p> : <Refusal error={error} />;
  const since = `since ${dayAndTime(Date.parse(value.since), reader)}`;
  if (value.total === 0) return <p class="lead">Every message could be used {since}.</p>;
  return (
    <>
      <p class="lead">
        {counted(value.total, 'message')} could not be used {since}. The others were kept.
      </p>
      <ul class="refusals">
        {[...value.refusals]
          .sort((one, other) => other.count - one.count)
          .map((refusal) => (
            <li key={refusal.reason}>
              <div class="refusal-count">{refusal.count}</div>
              <div class="refusal-what">
                <h3>{say(refusalName(refusal.reason))}</h3>
                <p>{say(refusal.messages.meaning)}</p>
                <details class="more">
                  <summary>
                    The last, {ageWords(nowMs - Date.parse(refusal.last.at))}
                    <span class="unseen">, of {say(refusalName(refusal.reason))}</span>
                  </summary>
                  <p>{say(refusal.last.messages.message)}</p>
                  <pre>
                    {refusal.last.topic}
                    {'\n'}
                    {refusal.last.payload || '(empty)'}
                  </pre>
                </details>
              </div>
            </li>
          ))}
      </ul>
    </>
  );
}
