/** Messages that could not be used: how many, why, and the last of each. */
import { useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { getRefusals } from '../../data/mappings.ts';
import { useQueryEvery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { refusalName, renderRefusal } from './refusal-words.ts';
import './incoming.css';
import { useIncomingWords } from './use-incoming-words.ts';

const refetchEveryMs = 5_000;

export const useRefusals = () => useQueryEvery('refusals', getRefusals, refetchEveryMs);

export function Refusals({ value, error }: ReturnType<typeof useRefusals>) {
  const { text, rich } = useIncomingWords();
  const nowMs = useServerNow();
  const say = useSay(renderRefusal);
  if (!value)
    return error === undefined ? <p class="quiet">{text('page-incoming.counting')}</p> : <Refusal error={error} />;
  const counts = { messageCount: value.total, sinceAtMs: Date.parse(value.since) };
  return (
    <>
      <p class="lead">{text('page-incoming.not-used.count', counts)}</p>
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
                    {rich('page-incoming.not-used.last', {
                      lastAgoMs: nowMs - Date.parse(refusal.last.at),
                      reasonText: say(refusalName(refusal.reason)),
                      aloud: (inner) => <span class="unseen">{inner}</span>,
                    })}
                  </summary>
                  <p>{say(refusal.last.messages.message)}</p>
                  <pre>
                    {refusal.last.topic}
                    {'\n'}
                    {refusal.last.payload || text('page-incoming.empty')}
                  </pre>
                </details>
              </div>
            </li>
          ))}
      </ul>
    </>
  );
}
