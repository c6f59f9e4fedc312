/**
 * web/journal/outbox-line.tsx: says on every page that something waits on this device; nothing while nothing does.
 */
import { useEffect } from 'preact/hooks';
import { counted } from '../format/words.ts';
import { useStore } from '../store.ts';
import { sendNow, startOutbox, waiting } from './waiting.ts';
import './outbox-line.css';

export function OutboxLine() {
  const entries = useStore(waiting, (now) => now.entries);
  useEffect(startOutbox, []);
  const refused = entries.filter((one) => one.refused !== null);
  const waits = entries.length - refused.length;
  const pile = refused[0]?.pileId;
  return (
    <div class="outbox-line" role="status">
      {waits > 0 && (
        <p>
          {counted(waits, 'entry', 'entries')} {waits === 1 ? 'waits' : 'wait'} on this device.{' '}
          <button type="button" class="plain" onClick={() => void sendNow()}>
            Send now
          </button>
        </p>
      )}
      {pile && (
        <p>
          <a href={`/piles/${pile}/journal`}>
            {counted(refused.length, 'entry', 'entries')} {refused.length === 1 ? 'was' : 'were'} not taken
          </a>
        </p>
      )}
    </div>
  );
}
