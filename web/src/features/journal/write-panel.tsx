/** What can be written about a pile, under the thumb: a kind, a choice, and it is written. */
import { useState } from 'preact/hooks';
import type { NewEntry } from '../../../../shared/contracts/journal.ts';
import { type EntryKind, entryKindSchema } from '../../../../shared/entry.ts';
import { type Position, positionSchema } from '../../../../shared/names.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { Tick } from '../../ui/parts/tick.tsx';
import { emptyEntry } from './entry-draft.ts';
import { EntryForm } from './entry-form.tsx';
import { entryGroups } from './entry-groups.ts';
import { useJournalWords } from './use-journal-words.ts';
import { writeDown } from './waiting.ts';
import './journal.css';

interface WritePanelProps {
  readonly pileId: string;
  /** Called once an entry is kept on this device. */
  readonly onWritten?: () => void;
}

/** Which kind stands open, and writing an entry of it down. */
function useWriting({ pileId, onWritten }: WritePanelProps) {
  const { text } = useJournalWords();
  const [kind, setKind] = useState<EntryKind | null>(kindAskedFor);
  const [status, setStatus] = useState('');
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const site = piles.find(({ id }) => id === pileId)?.site;
  const others = piles.filter((one) => one.id !== pileId && one.site === site && one.batch !== null);
  const [rainsOnAll, setRainsOnAll] = useState(true);
  const isLost = useInstallation((installation) => installation.link === 'lost');
  const write = async (what: EntryKind, entry: NewEntry) => {
    await writeDown(pileId, entry);
    // It rains on a whole site; beds under a roof take nothing of it.
    if (what === 'rained' && rainsOnAll) for (const { id } of others) await writeDown(id, entry);
    // The next kind may be open already.
    setKind((now) => (now === what ? null : now));
    setStatus(text('page-journal.kept', { kindText: text('page-journal.kind', { kind: what }), isLost }));
    onWritten?.();
  };
  const choose = (one: EntryKind) => {
    setKind(one === kind ? null : one);
    setStatus('');
  };
  return { kind, choose, leave: () => setKind(null), status, others, rainsOnAll, setRainsOnAll, write };
}

export function WritePanel(props: WritePanelProps) {
  const { text } = useJournalWords();
  const { kind, choose, leave, status, others, rainsOnAll, setRainsOnAll, write } = useWriting(props);
  const [firstBed = '', ...otherBeds] = others.map(({ name }) => name);
  const bedsText = otherBeds.reduce(
    (beforeText, nextText) => text('page-journal.others.next', { beforeText, nextText }),
    firstBed,
  );
  return (
    <div class="write-panel">
      {entryGroups.map(({ group, kinds }) => (
        <fieldset class="kinds" key={group}>
          <legend>{text('page-journal.group', { group })}</legend>
          <div class="kinds-row">
            {kinds.map((one) => (
              <button type="button" key={one} aria-pressed={one === kind} onClick={() => choose(one)}>
                {text('page-journal.kind', { kind: one })}
              </button>
            ))}
          </div>
          {kind && kinds.some((one) => one === kind) && (
            <EntryForm
              key={kind}
              pileId={props.pileId}
              first={{ ...emptyEntry(kind), position: positionAskedFor() }}
              onLeave={leave}
              more={
                kind === 'rained' &&
                others.length > 0 && (
                  <Tick
                    label={text('page-journal.others', { bedsText })}
                    checked={rainsOnAll}
                    onChange={setRainsOnAll}
                  />
                )
              }
              onWrite={(entry) => write(kind, entry)}
            />
          )}
        </fieldset>
      ))}
      <p role="status" class={status ? 'written-down' : 'unseen'}>
        {status}
      </p>
    </div>
  );
}

/** ... and for the place of a temperature; a pile is judged by its core. */
function positionAskedFor(): Position {
  return positionSchema.safeParse(new URLSearchParams(location.search).get('at')).data ?? 'core';
}

/** A link may ask for one kind. @example '?write=measured' */
function kindAskedFor(): EntryKind | null {
  return entryKindSchema.safeParse(new URLSearchParams(location.search).get('write')).data ?? null;
}
