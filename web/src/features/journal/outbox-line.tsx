/** Says on every page that something waits on this device, and for whom; nothing while nothing does. */
import { useEffect } from 'preact/hooks';
import { pageOutboxTexts } from '../../../../shared/messages/made/en/page-outbox.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { me, whoWrites } from '../../data/me.ts';
import { useStore } from '../../data/store.ts';
import { isOf, isTakenBack, type WaitingEntry, writerName } from './outbox.ts';
import { sendNow, startOutbox, waiting } from './waiting.ts';
import './outbox-line.css';

export function OutboxLine() {
  const { text, rich } = usePageTexts(pageOutboxTexts);
  const entries = useStore(waiting, (now) => now.entries);
  useStore(me, (known) => known);
  useEffect(startOutbox, []);
  const who = whoWrites();
  const refused = entries.filter((one) => one.refused !== null);
  const waits = entries.filter((one) => one.refused === null && !isTakenBack(one));
  const own = waits.filter((one) => isOf(one, who));
  const pile = refused[0]?.pileId;
  return (
    <div class="outbox-line" role="status">
      {own.length > 0 && (
        <p>
          {rich('page-outbox.own', {
            entryCount: own.length,
            send: (inner) => (
              <button type="button" class="plain" onClick={() => void sendNow()}>
                {inner}
              </button>
            ),
          })}
        </p>
      )}
      {byWriter(waits.filter((one) => !isOf(one, who))).map(([name, of]) => (
        <p key={name ?? ''}>
          {name === null
            ? text('page-outbox.nobodys', { entryCount: of.length })
            : text('page-outbox.of', { entryCount: of.length, personName: name })}{' '}
          {who && <a href={`/piles/${of[0]?.pileId}/journal`}>{text('page-outbox.see', { entryCount: of.length })}</a>}
        </p>
      ))}
      {pile && (
        <p>
          <a href={`/piles/${pile}/journal`}>{text('page-outbox.refused', { entryCount: refused.length })}</a>
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
