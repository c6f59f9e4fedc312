/** Says on every page that something waits on this device, and for whom; nothing while nothing does. */
import { useEffect } from 'preact/hooks';
import { me, whoWrites } from '../../data/me.ts';
import { useStore } from '../../data/store.ts';
import { counted } from '../../ui/format/words.ts';
import { isOf, type WaitingEntry, writerName } from './outbox.ts';
import { sendNow, startOutbox, waiting } from './waiting.ts';
import './outbox-line.css';

export function OutboxLine() {
  const entries = useStore(waiting, (now) => now.entries);
  useStore(me, (known) => known);
  useEffect(startOutbox, []);
  const who = whoWrites();
  const refused = entries.filter((one) => one.refused !== null);
  const waits = entries.filter((one) => one.refused === null);
  const own = waits.filter((one) => isOf(one, who));
  const pile = refused[0]?.pileId;
  return (
    <div class="outbox-line" role="status">
      {own.length > 0 && (
        <p>
          {counted(own.length, 'entry', 'entries')} {own.length === 1 ? 'waits' : 'wait'} on this device.{' '}
          <button type="button" class="plain" onClick={() => void sendNow()}>
            Send now
          </button>
        </p>
      )}
      {byWriter(waits.filter((one) => !isOf(one, who))).map(([name, of]) => (
        <p key={name ?? ''}>
          {othersWords(name, of.length)}{' '}
          {who && <a href={`/piles/${of[0]?.pileId}/journal`}>See {of.length === 1 ? 'it' : 'them'}</a>}
        </p>
      ))}
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

/** Under null what was written while nobody went by name. */
function byWriter(entries: readonly WaitingEntry[]): [string | null, WaitingEntry[]][] {
  const groups = new Map<string | null, WaitingEntry[]>();
  for (const one of entries) {
    const name = writerName(one);
    groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  return [...groups];
}

function othersWords(name: string | null, count: number): string {
  const entries = counted(count, 'entry', 'entries');
  if (name !== null)
    return `${entries} by ${name} ${count === 1 ? 'waits' : 'wait'} on this device until ${name} signs in here.`;
  return `${entries} written here while nobody was signed in ${count === 1 ? 'waits' : 'wait'} for somebody to say whose ${count === 1 ? 'it is' : 'they are'}.`;
}
