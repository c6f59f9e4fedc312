/** One entry as it stands, what it said before, and correcting or striking it out. */

import { useState } from 'preact/hooks';
import type { Entry, EntryVersion } from '../../../../shared/contracts/journal.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { counted } from '../../ui/format/words.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { newClientId } from './client-id.ts';
import { draftOf } from './entry-draft.ts';
import { EntryForm } from './entry-form.tsx';
import { correctEntry, getEntry, withdrawEntry } from './journal-api.ts';
import { Photo } from './photo.tsx';
import { useSayWritten } from './say-entry.ts';
import './journal.css';

interface EntryLineProps {
  readonly entry: Entry;
  readonly site: string | undefined;
  readonly onChange: () => Promise<unknown>;
}

type Open = 'nothing' | 'correct' | 'strike' | 'before';

export function EntryLine({ entry, site, onChange }: EntryLineProps) {
  const reader = useReader(site);
  const units = usePlanUnits();
  const [open, setOpen] = useState<Open>('nothing');
  const toggle = (what: Open) => setOpen(open === what ? 'nothing' : what);
  const says = useSayWritten()(entry);
  const when = dayAndTime(Date.parse(entry.at), reader);
  const after = async () => {
    await onChange();
    setOpen('nothing');
  };
  return (
    <li class={entry.withdrawn ? 'struck' : undefined}>
      <time dateTime={entry.at}>{when}</time>
      <div>
        <p>
          {entry.withdrawn ? <del class="struck-words">{says}</del> : <b>{says}</b>}
          {entry.by && <span class="quiet"> by {entry.by}</span>}
          {entry.note && (
            <span class="diary-note">
              {entry.withdrawn ? <del class="struck-words">{entry.note}</del> : entry.note}
            </span>
          )}
        </p>
        {entry.withdrawn && <p class="quiet">Struck out{entry.reason ? `: ${entry.reason}` : '.'}</p>}
        {entry.photoIds.length > 0 && <Photos ids={entry.photoIds} of={`${says}, ${when}`} />}
        <EntryActs entry={entry} of={`${says}, ${when}`} open={open} onToggle={toggle} />
        {open === 'correct' && (
          <EntryForm
            correcting
            pileId={entry.pileId}
            first={draftOf(entry, units)}
            firstAtMs={Date.parse(entry.at)}
            onLeave={() => setOpen('nothing')}
            onWrite={async (content, reason) => {
              await correctEntry(entry.id, {
                ...content,
                id: newClientId(),
                replaces: entry.versionId,
                ...(reason ? { reason } : {}),
              });
              await after();
            }}
          />
        )}
        {open === 'strike' && <StrikeOut entry={entry} onDone={after} />}
        {open === 'before' && <Before entry={entry} />}
      </div>
    </li>
  );
}

interface EntryActsProps {
  readonly entry: Entry;
  /** Which entry, for those who hear the buttons alone. */
  readonly of: string;
  readonly open: Open;
  readonly onToggle: (what: Open) => void;
}

function EntryActs({ entry, of, open, onToggle }: EntryActsProps) {
  const act = (what: Open, words: string) => (
    <button type="button" class="plain" aria-expanded={open === what} onClick={() => onToggle(what)}>
      {words}
      <span class="unseen"> {of}</span>
    </button>
  );
  return (
    <div class="entry-acts">
      {!entry.withdrawn && (
        <May to="keeper">
          {act('correct', 'Correct')}
          {act('strike', 'Strike out')}
        </May>
      )}
      {entry.version > 1 && (
        <button type="button" class="plain" aria-expanded={open === 'before'} onClick={() => onToggle('before')}>
          What it said before
          <span class="unseen">, of {of}</span>
        </button>
      )}
    </div>
  );
}

function Photos({ ids, of }: { readonly ids: readonly string[]; readonly of: string }) {
  const [large, setLarge] = useState<string | null>(null);
  return (
    <ul class="photos">
      {ids.map((id, index) => (
        <li key={id}>
          <button
            type="button"
            class="photo-button"
            aria-pressed={large === id}
            onClick={() => setLarge(large === id ? null : id)}
          >
            <Photo id={id} whole={large === id} alt={`Photo ${index + 1} of ${of}`} />
          </button>
        </li>
      ))}
    </ul>
  );
}

function StrikeOut({ entry, onDone }: { readonly entry: Entry; readonly onDone: () => Promise<unknown> }) {
  const mutation = useMutation();
  const { name } = usePrefs();
  const [reason, setReason] = useState('');
  const strike = () =>
    mutation.run(async () => {
      await withdrawEntry(entry.id, {
        id: newClientId(),
        replaces: entry.versionId,
        ...(name ? { by: name } : {}),
        ...(reason.trim() ? { reason: reason.trim() } : {}),
      });
      await onDone();
    });
  return (
    <form
      class="form entry-form"
      onSubmit={(event) => {
        event.preventDefault();
        void strike();
      }}
    >
      <TextField
        label="Why it is struck out"
        value={reason}
        onValue={setReason}
        hint="It stays readable, struck through."
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy}>
        Strike it out
      </button>
    </form>
  );
}

function Before({ entry }: { readonly entry: Entry }) {
  const { value, error } = useQuery(`${entry.id} ${entry.versionId}`, () => getEntry(entry.id));
  const reader = useReader();
  const sayWritten = useSayWritten();
  if (error !== undefined) return <Refusal error={error} />;
  if (!value) return <p class="quiet">Looking…</p>;
  // Each version tells why the one before it was replaced.
  const newer = [value.entry, ...value.earlier] as readonly EntryVersion[];
  return (
    <ol class="before" aria-label={counted(value.earlier.length, 'earlier version')}>
      {value.earlier.map((version, index) => (
        <li key={version.versionId}>
          {sayWritten(version)}, {dayAndTime(Date.parse(version.at), reader)}
          {version.note && <span class="diary-note">{version.note}</span>}
          <span class="origin">
            written {dayAndTime(Date.parse(version.recordedAt), reader)}
            {version.by && ` by ${version.by}`}, replaced{' '}
            {dayAndTime(Date.parse(newer[index]?.recordedAt ?? version.recordedAt), reader)}
            {newer[index]?.reason && `: ${newer[index]?.reason}`}
          </span>
        </li>
      ))}
    </ol>
  );
}
