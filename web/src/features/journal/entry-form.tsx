/** One entry being written or corrected: a few taps, and everything else folded away. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { NewEntry } from '../../../../shared/contracts/journal.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { changePrefs, usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { instantOfWall, wallOfInstant } from '../../ui/format/local-time.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { entryCautions } from './entry-cautions.ts';
import { checkedEntry, type EntryDraft } from './entry-draft.ts';
import { EntryFields } from './entry-fields.tsx';
import { entryNames } from './entry-words.ts';
import { PhotoField } from './photo-field.tsx';
import { serverMomentMs } from './server-moment.ts';

interface EntryFormProps {
  readonly pileId: string;
  readonly first: EntryDraft;
  /** When it happened, for one that is corrected; else it is now until somebody says otherwise. */
  readonly firstAtMs?: number;
  readonly correcting?: boolean;
  /** Resolves once it is kept. */
  readonly onWrite: (entry: NewEntry, reason: string) => Promise<unknown>;
  readonly onLeave: () => void;
  /** Asked below the fields of the kind. */
  readonly more?: ComponentChildren;
}

export function EntryForm({ pileId, first, firstAtMs, correcting = false, onWrite, onLeave, more }: EntryFormProps) {
  const pile = useInstallation((installation) => installation.piles?.find((one) => one.id === pileId));
  const reader = useReader(pile?.site);
  const units = usePlanUnits();
  const nowMs = useServerNow();
  const { unit, name } = usePrefs();
  const mutation = useMutation();
  const [draft, setDraft] = useState(first);
  const [at, setAt] = useState<string | null>(
    firstAtMs === undefined ? null : wallOfInstant(firstAtMs, reader.timeZone),
  );
  const [reason, setReason] = useState('');
  const [errors, setErrors] = useState<ReadonlyMap<string, string>>(new Map());
  const change = (part: Partial<EntryDraft>) => setDraft({ ...draft, ...part });
  const wrong = (pointer: string) => errors.get(pointer) ?? mutation.fieldError(pointer);

  const write = async () => {
    const isSame = firstAtMs !== undefined && at === wallOfInstant(firstAtMs, reader.timeZone);
    const whenMs = isSame ? firstAtMs : at === null ? serverMomentMs() : instantOfWall(at, reader.timeZone);
    if (whenMs === undefined) return setErrors(new Map([['/at', 'Say the day and the time.']]));
    const checked = checkedEntry(draft, units, whenMs, name);
    setErrors(checked.errors);
    const { entry } = checked;
    if (entry) await mutation.run(() => onWrite(entry, reason.trim()));
  };

  const wantsPhoto = draft.kind === 'photo';
  const wantsNote = draft.kind === 'note';
  const note = (
    <Field label="Note" error={wrong('/note')}>
      {(ids) => (
        <textarea
          {...ids}
          rows={wantsNote ? 4 : 2}
          maxLength={2000}
          value={draft.note}
          onInput={(event) => change({ note: event.currentTarget.value })}
        />
      )}
    </Field>
  );
  const photos = (
    <PhotoField photoIds={draft.photoIds} onPhotos={(photoIds) => change({ photoIds })} error={wrong('/photoIds')} />
  );
  return (
    <form
      class="form entry-form"
      aria-label={`${entryNames[draft.kind]}: ${correcting ? 'correct it' : 'write it down'}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      {!correcting &&
        entryCautions(draft.kind, pile?.positions).map((caution) => (
          <p class="caution" key={caution}>
            <span class="label">Caution</span> {sentenceIn(unit, caution)}
          </p>
        ))}
      {wantsPhoto && photos}
      {wantsNote && note}
      <EntryFields draft={draft} stage={pile?.stage ?? 'bran'} onDraft={change} errors={errors} />
      {more}
      {correcting && (
        <TextField
          label="Why it is corrected"
          value={reason}
          onValue={setReason}
          hint="What it said before stays readable."
          error={mutation.fieldError('/reason')}
        />
      )}
      <Refusal error={mutation.error} />
      <div class="entry-form-end">
        <button type="submit" class="primary" disabled={mutation.busy}>
          {correcting ? 'Keep the correction' : 'Write it down'}
        </button>
        <button type="button" class="plain" onClick={onLeave}>
          Cancel
        </button>
      </div>
      <details class="more" open={correcting}>
        <summary>{wantsPhoto || wantsNote ? 'Another time, more to say' : 'Another time, a note, a photo'}</summary>
        <div class="field-row">
          <TextField
            label="When"
            type="datetime-local"
            value={at ?? wallOfInstant(nowMs, reader.timeZone)}
            onValue={setAt}
            error={wrong('/at')}
          />
          <TextField
            label="Who"
            value={name}
            onValue={(who) => changePrefs({ name: who.slice(0, 80) })}
            hint="Remembered on this device."
          />
        </div>
        {!wantsNote && note}
        {!wantsPhoto && photos}
      </details>
    </form>
  );
}
