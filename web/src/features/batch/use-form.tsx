/** A batch, or part of it, put to use: on a bed, into compost, given away. */
import { useState } from 'preact/hooks';
import { type BatchDetail, useTargets } from '../../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { readMeasure, usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { writeUse } from './batch-api.ts';
import { targetNames } from './batch-words.ts';
import { PartOf, partBody } from './part-of.tsx';

interface UseFormProps {
  readonly batch: BatchDetail;
  readonly onDone: () => Promise<unknown>;
}

export function UseForm({ batch, onDone }: UseFormProps) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const { name } = usePrefs();
  const [target, setTarget] = useState<(typeof useTargets)[number]>('bed');
  const [place, setPlace] = useState('');
  const [part, setPart] = useState<{ how: 'all' | 'part'; mass: string }>({ how: 'part', mass: '' });
  const [area, setArea] = useState('');
  const [volume, setVolume] = useState('');
  const [at, setAt] = useState('');
  const [note, setNote] = useState('');
  const write = () =>
    mutation.run(async () => {
      const atMs = instantOfWall(at, reader.timeZone);
      const areaM2 = readMeasure('areaM2', area, units);
      const volumeL = readMeasure('volumeL', volume, units);
      await writeUse(batch.id, {
        target,
        place,
        ...partBody(part, units),
        ...(areaM2 === undefined ? {} : { areaM2 }),
        ...(volumeL === undefined ? {} : { volumeL }),
        ...(atMs === undefined ? {} : { at: toInstant(atMs) }),
        ...(name ? { by: name } : {}),
        ...(note.trim() ? { note: note.trim() } : {}),
      });
      await fetchAll();
      await onDone();
    });
  return (
    <form
      class="form"
      aria-label="Write down a use"
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      <p class="caution">
        <span class="label">Caution</span> A pile kept for its culture is not sanitised: keep it off crops eaten raw as
        your rules for raw compost ask, wear gloves, and a close-fitting mask while it dusts.
      </p>
      <div class="field-row">
        <PickField
          label="Used on"
          value={target}
          choices={useTargets.map((one) => [one, capital(targetNames[one])] as const)}
          onValue={setTarget}
        />
        <TextField
          label="Which one"
          hint="Bed 3, upper terrace."
          value={place}
          onValue={setPlace}
          required
          error={mutation.fieldError('/place')}
        />
      </div>
      <PartOf batch={batch} draft={part} onDraft={setPart} wrong={mutation.fieldError} />
      <MeasureField
        label="Ground covered"
        kind="areaM2"
        value={area}
        onValue={setArea}
        hint="With the mass it gives the rate."
        error={mutation.fieldError('/areaM2')}
      />
      <details class="more">
        <summary>Volume, another time, a note</summary>
        <MeasureField
          label="Volume"
          kind="volumeL"
          value={volume}
          onValue={setVolume}
          error={mutation.fieldError('/volumeL')}
        />
        <TextField
          label="When"
          type="datetime-local"
          hint="Leave empty for now."
          value={at}
          onValue={setAt}
          error={mutation.fieldError('/at')}
        />
        <TextField label="Note" value={note} onValue={setNote} error={mutation.fieldError('/note')} />
      </details>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        Write down the use
      </button>
    </form>
  );
}
