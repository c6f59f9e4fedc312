/** One entry being written or corrected: a few taps, and everything else folded away. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { NewEntry } from '../../../../shared/contracts/journal.ts';
import type { EntryKind } from '../../../../shared/entry.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { changePrefs, usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { renderCaution } from '../../ui/format/act-caution.ts';
import { instantOfWall, wallOfInstant } from '../../ui/format/local-time.ts';
import { Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { entryCautions } from './entry-cautions.ts';
import { checkedEntry, type EntryDraft } from './entry-draft.ts';
import { EntryFields } from './entry-fields.tsx';
import { PhotoField } from './photo-field.tsx';
import { serverMomentMs } from './server-moment.ts';
import { useJournalWords } from './use-journal-words.ts';
import './journal.css';

interface EntryFormProps {
  readonly pileId: string;
  readonly first: EntryDraft;
  /** When it happened, for one that is corrected; else it is now until somebody says otherwise. */
  readonly firstAtMs?: number;
  /** The same on the wall clock, of one that was half written. */
  readonly firstAt?: string | null;
  readonly correcting?: boolean;
  /** Resolves once it is kept. */
  readonly onWrite: (entry: NewEntry, reason: string) => Promise<unknown>;
  readonly onLeave: () => void;
  /** Whatever is typed or chosen; without it nothing is kept while it is half written. */
  readonly onDraft?: (draft: EntryDraft, at: string | null) => void;
  /** Says that it is a draft, and throws it away. */
  readonly asDraft?: ComponentChildren;
  /** Asked below the fields of the kind. */
  readonly more?: ComponentChildren;
}

/** An entry as it stands in the form, what is wrong with it, and writing it. */
function useEntryDraft(
  { first, firstAtMs, firstAt = null, onWrite, onDraft }: EntryFormProps,
  timeZone: string | undefined,
) {
  const words = useJournalWords();
  const units = usePlanUnits();
  const nowMs = useServerNow();
  const { name } = usePrefs();
  const mutation = useMutation();
  const [draft, setDraft] = useState(first);
  const [at, setAt] = useState<string | null>(firstAtMs === undefined ? firstAt : wallOfInstant(firstAtMs, timeZone));
  const [reason, setReason] = useState('');
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map());
  const change = (part: Partial<EntryDraft>) => {
    const next = { ...draft, ...part };
    setDraft(next);
    onDraft?.(next, at);
  };
  const setWhen = (when: string) => {
    setAt(when);
    onDraft?.(draft, when);
  };
  const wrong = (pointer: string) => errors.get(pointer) ?? mutation.fieldError(pointer);

  const write = async () => {
    const isSame = firstAtMs !== undefined && at === wallOfInstant(firstAtMs, timeZone);
    const whenMs = isSame ? firstAtMs : at === null ? serverMomentMs() : instantOfWall(at, timeZone);
    if (whenMs === undefined) return setErrors(new Map([['/at', words.text('page-journal.form.when.wanted')]]));
    const checked = checkedEntry(draft, units, whenMs, name, words);
    setErrors(checked.errors);
    const { entry } = checked;
    if (entry) await mutation.run(() => onWrite(entry, reason.trim()));
  };
  const when = at ?? wallOfInstant(nowMs, timeZone);
  return { draft, change, when, setWhen, reason, setReason, errors, wrong, write, mutation };
}

export function EntryForm(props: EntryFormProps) {
  const { text } = useJournalWords();
  const { pileId, first, firstAt = null, correcting = false, onLeave, asDraft, more } = props;
  const pile = useInstallation((installation) => installation.piles?.find((one) => one.id === pileId));
  const { timeZone } = useReader(pile?.site);
  const { draft, change, errors, wrong, mutation, ...written } = useEntryDraft(props, timeZone);
  const wantsPhoto = draft.kind === 'photo';
  const wantsNote = draft.kind === 'note';
  const note = (
    <NoteField
      rows={wantsNote ? 4 : 2}
      value={draft.note}
      onValue={(text) => change({ note: text })}
      error={wrong('/note')}
    />
  );
  const photos = (
    <PhotoField photoIds={draft.photoIds} onPhotos={(photoIds) => change({ photoIds })} error={wrong('/photoIds')} />
  );
  return (
    <form
      class="form entry-form"
      aria-label={text('page-journal.form', {
        kindText: text('page-journal.kind', { kind: draft.kind }),
        isCorrection: correcting,
      })}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void written.write();
      }}
    >
      {!correcting && <Cautions kind={draft.kind} positions={pile?.positions} />}
      {wantsPhoto && photos}
      {wantsNote && note}
      <EntryFields draft={draft} stage={pile?.stage ?? 'bran'} onDraft={change} errors={errors} />
      {more}
      {correcting && (
        <TextField
          label={text('page-journal.form.reason')}
          value={written.reason}
          onValue={written.setReason}
          hint={text('page-journal.form.reason.hint')}
          error={mutation.fieldError('/reason')}
        />
      )}
      <Refusal error={mutation.error} />
      <div class="entry-form-end">
        <button type="submit" class="primary" disabled={mutation.busy}>
          {text('page-journal.form.write', { isCorrection: correcting })}
        </button>
        <button type="button" class="plain" onClick={onLeave}>
          {text(asDraft ? 'page-journal.draft.close' : 'page-journal.form.cancel')}
        </button>
      </div>
      {asDraft}
      <details class="more" open={correcting || firstAt !== null || hasMore(first)}>
        <summary>{text('page-journal.form.more', { asksNote: !wantsPhoto && !wantsNote })}</summary>
        <WhenAndWho when={written.when} onWhen={written.setWhen} error={wrong('/at')} />
        {!wantsNote && note}
        {!wantsPhoto && photos}
      </details>
    </form>
  );
}

/** Whether something stands in what is folded away at first. */
const hasMore = ({ kind, note, photoIds }: EntryDraft) =>
  (kind !== 'note' && note !== '') || (kind !== 'photo' && photoIds.length > 0);

function Cautions({
  kind,
  positions,
}: {
  readonly kind: EntryKind;
  readonly positions: Parameters<typeof entryCautions>[1];
}) {
  const { text } = useJournalWords();
  const say = useSay(renderCaution);
  return (
    <>
      {entryCautions(kind, positions).map((caution) => (
        <p class="caution" key={say(caution)}>
          <span class="label">{text('page-journal.form.caution')}</span> {say(caution)}
        </p>
      ))}
    </>
  );
}

interface NoteFieldProps {
  readonly rows: number;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly error: string | undefined;
}

function NoteField({ rows, value, onValue, error }: NoteFieldProps) {
  const { text } = useJournalWords();
  return (
    <Field label={text('page-journal.form.note')} error={error}>
      {(ids) => (
        <textarea
          {...ids}
          rows={rows}
          maxLength={2000}
          value={value}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

interface WhenAndWhoProps {
  readonly when: string;
  readonly onWhen: (when: string) => void;
  readonly error: string | undefined;
}

function WhenAndWho({ when, onWhen, error }: WhenAndWhoProps) {
  const { text } = useJournalWords();
  const { name } = usePrefs();
  return (
    <div class="field-row">
      <TextField
        label={text('page-journal.form.when')}
        type="datetime-local"
        value={when}
        onValue={onWhen}
        error={error}
      />
      <TextField
        label={text('page-journal.form.who')}
        value={name}
        onValue={(who) => changePrefs({ name: who.slice(0, 80) })}
        hint={text('page-journal.form.who.hint')}
      />
    </div>
  );
}
