/** Whose connection the broker refused or slowed. */
import { useServerNow } from '../../data/live/use-installation.ts';
import { useQueryEvery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { getRefusedConnections } from '../keys/keys-api.ts';
import './incoming.css';
import { useIncomingWords } from './use-incoming-words.ts';

const refetchEveryMs = 5_000;

export function RefusedConnections() {
  const { text, rich } = useIncomingWords();
  const { value, error } = useQueryEvery('turned-away', getRefusedConnections, refetchEveryMs);
  const nowMs = useServerNow();
  if (!value)
    return error === undefined ? <p class="quiet">{text('page-incoming.counting')}</p> : <Refusal error={error} />;
  if (value.turnedAway.length === 0) return <p class="lead">{text('page-incoming.connections.none')}</p>;
  return (
    <ul class="refusals">
      {value.turnedAway.map((line) => {
        const known = { isNamed: line.clientId !== '' && line.clientId !== null, hasKey: Boolean(line.key) };
        return (
          <li key={`${line.reason} ${line.address} ${line.clientId} ${line.key}`}>
            <div class="refusal-count">{line.count}</div>
            <div class="refusal-what">
              <h3>{text(`page-incoming.connection.${line.reason}`)}</h3>
              <p>
                {rich('page-incoming.connections.who', {
                  ...known,
                  addressText: line.address,
                  clientText: line.clientId ?? '',
                  mono: (inner) => <code>{inner}</code>,
                  keyName: line.key ?? '',
                  lastAgoMs: nowMs - Date.parse(line.lastAt),
                })}
              </p>
              <p class="quiet">{text(`page-incoming.connection.${line.reason}.meaning`)}</p>
            </div>
          </li>
        );
      })}
    </ul>
  );
}
