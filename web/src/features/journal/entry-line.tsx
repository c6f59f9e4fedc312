/** One entry as it stands, what it said before, and correcting or striking it out. */

import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Entry, EntryVersion } from '../../../../shared/contracts/journal.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { newClientId } from './client-id.ts';
import { draftOf } from './entry-draft.ts';
import { EntryForm } from './entry-form.tsx';
import { correctEntry, getEntry, withdrawEntry } from './journal-api.ts';
import { Photo } from './photo.tsx';
import { useSayWritten } from './say-entry.ts';
import { useJournalWords } from './use-journal-words.ts';
import './journal.css';

interface EntryLineProps {
  readonly entry: Entry;
  readonly site: string | undefined;
  readonly onChange: () => Promise<unknown>;
}

/** Which entry, for those who hear a button or a picture alone. */
interface Which {
  readonly entryText: string;
  readonly timeText: string;
}

type Open = 'nothing' | 'correct' | 'strike' | 'before';

export function EntryLine({ entry, site, onChange }: EntryLineProps) {
  const { text } = useJournalWords();
  const reader = useReader(site);
  const units = usePlanUnits();
  const [open, setOpen] = useState<Open>('nothing');
  const toggle = (what: Open) => setOpen(open === what ? 'nothing' : what);
  const says = useSayWritten()(entry);
  const when = dayAndTime(Date.parse(entry.at), reader);
  const of = { entryText: says, timeText: when };
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
          {entry.by && <span class="quiet"> {text('page-journal.entry.by', { personName: entry.by })}</span>}
          {entry.note && (
            <span class="diary-note">
              {entry.withdrawn ? <del class="struck-words">{entry.note}</del> : entry.note}
            </span>
          )}
        </p>
        {entry.withdrawn && (
          <p class="quiet">
            {text('page-journal.entry.struck', { hasReason: Boolean(entry.reason), reasonText: entry.reason ?? '' })}
          </p>
        )}
        {entry.photoIds.length > 0 && <Photos ids={entry.photoIds} of={of} />}
        <EntryActs entry={entry} of={of} open={open} onToggle={toggle} />
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
  readonly of: Which;
  readonly open: Open;
  readonly onToggle: (what: Open) => void;
}

function EntryActs({ entry, of, open, onToggle }: EntryActsProps) {
  const { rich } = useJournalWords();
  const unseen = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;
  const act = (what: Exclude<Open, 'nothing'>) => (
    <button type="button" class="plain" aria-expanded={open === what} onClick={() => onToggle(what)}>
      {what === 'before'
        ? rich('page-journal.entry.before', { ...of, unseen })
        : rich('page-journal.entry.act', { ...of, act: what, unseen })}
    </button>
  );
  return (
    <div class="entry-acts">
      {!entry.withdrawn && (
        <May to="keeper">
          {act('correct')}
          {act('strike')}
        </May>
      )}
      {entry.version > 1 && act('before')}
    </div>
  );
}

function Photos({ ids, of }: { readonly ids: readonly string[]; readonly of: Which }) {
  const { text } = useJournalWords();
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
            <Photo id={id} whole={large === id} alt={text('page-journal.photo.of', { ...of, photoCount: index + 1 })} />
          </button>
        </li>
      ))}
    </ul>
  );
}

function StrikeOut({ entry, onDone }: { readonly entry: Entry; readonly onDone: () => Promise<unknown> }) {
  const { text } = useJournalWords();
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
        label={text('page-journal.strike.reason')}
        value={reason}
        onValue={setReason}
        hint={text('page-journal.strike.hint')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy}>
        {text('page-journal.strike')}
      </button>
    </form>
  );
}

function Before({ entry }: { readonly entry: Entry }) {
  const { text } = useJournalWords();
  const { value, error } = useQuery(`${entry.id} ${entry.versionId}`, () => getEntry(entry.id));
  const reader = useReader();
  const sayWritten = useSayWritten();
  const time = (at: string) => dayAndTime(Date.parse(at), reader);
  if (error !== undefined) return <Refusal error={error} />;
  if (!value) return <p class="quiet">{text('page-journal.before.looking')}</p>;
  // Each version tells why the one before it was replaced.
  const newer = [value.entry, ...value.earlier] as readonly EntryVersion[];
  return (
    <ol class="before" aria-label={text('page-journal.before.count', { versionCount: value.earlier.length })}>
      {value.earlier.map((version, index) => (
        <li key={version.versionId}>
          {text('page-journal.before', { entryText: sayWritten(version), timeText: time(version.at) })}
          {version.note && <span class="diary-note">{version.note}</span>}
          <span class="origin">
            {text('page-journal.before.replaced', {
              writtenText: time(version.recordedAt),
              isNamed: Boolean(version.by),
              personName: version.by ?? '',
              replacedText: time(newer[index]?.recordedAt ?? version.recordedAt),
              hasReason: Boolean(newer[index]?.reason),
              reasonText: newer[index]?.reason ?? '',
            })}
          </span>
        </li>
      ))}
    </ol>
  );
}
