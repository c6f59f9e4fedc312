/** Whose connection the broker refused or slowed. */
import { useEffect } from 'preact/hooks';
import { useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { ageWords } from '../../ui/format/age.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { refusedWords } from '../keys/key-words.ts';
import { getRefusedConnections } from '../keys/keys-api.ts';
import './incoming.css';

const refetchEveryMs = 5_000;

export function RefusedConnections() {
  const { value, error, refresh } = useQuery('turned-away', getRefusedConnections);
  const nowMs = useServerNow();
  useEffect(() => {
    const timer = setInterval(() => void refresh(), refetchEveryMs);
    return () => clearInterval(timer);
  }, []);
  if (!value) return error === undefined ? <p class="quiet">Counting…</p> : <Refusal error={error} />;
  if (value.turnedAway.length === 0) return <p class="lead">Nobody was turned away since the last start.</p>;
  return (
    <ul class="refusals">
      {value.turnedAway.map((line) => {
        const { title, meaning } = refusedWords[line.reason];
        return (
          <li key={`${line.reason} ${line.address} ${line.clientId} ${line.key}`}>
            <div class="refusal-count">{line.count}</div>
            <div class="refusal-what">
              <h3>{title}</h3>
              <p>
                From {line.address}
                {line.clientId && (
                  <>
                    , calling itself <code>{line.clientId}</code>
                  </>
                )}
                {line.key && `, with the key “${line.key}”`}; last {ageWords(nowMs - Date.parse(line.lastAt))}.
              </p>
              <p class="quiet">{meaning}</p>
            </div>
          </li>
        );
      })}
    </ul>
  );
}
