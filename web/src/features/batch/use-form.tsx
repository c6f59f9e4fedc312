/** A batch, or part of it, put to use: on a bed, into compost, given away. */
import { useState } from 'preact/hooks';
import type { BatchDetail, useTargets } from '../../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { readMeasure, usePlanUnits } from '../../data/plan-units.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { writeUse } from './batch-api.ts';
import { targetChoices } from './batch-words.ts';
import { PartOf, partBody } from './part-of.tsx';
import { useBatchWords } from './use-batch-words.ts';

interface UseFormProps {
  readonly batch: BatchDetail;
  readonly onDone: () => Promise<unknown>;
}

interface UseDraft {
  readonly target: (typeof useTargets)[number];
  readonly place: string;
  readonly part: { readonly how: 'all' | 'part'; readonly mass: string };
  readonly area: string;
  readonly volume: string;
  /** On the wall clock; empty means now. */
  readonly at: string;
  readonly note: string;
}

const emptyUse: UseDraft = {
  target: 'bed',
  place: '',
  part: { how: 'part', mass: '' },
  area: '',
  volume: '',
  at: '',
  note: '',
};

/** A use as it stands in the form, and writing it down. */
function useUseDraft({ batch, onDone }: UseFormProps) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const { name } = usePrefs();
  const [draft, setDraft] = useState(emptyUse);
  const write = () =>
    mutation.run(async () => {
      const { target, place, part, area, volume, at, note } = draft;
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
  return { draft, change: (part: Partial<UseDraft>) => setDraft({ ...draft, ...part }), write, mutation };
}

export function UseForm(props: UseFormProps) {
  const words = useBatchWords();
  const { text } = words;
  const { draft, change, write, mutation } = useUseDraft(props);
  return (
    <form
      class="form"
      aria-label={text('page-batch.use')}
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      <p class="caution">
        <span class="label">{text('page-batch.caution')}</span> {text('page-batch.use.caution')}
      </p>
      <div class="field-row">
        <PickField
          label={text('page-batch.use.on')}
          value={draft.target}
          choices={targetChoices(words)}
          onValue={(target) => change({ target })}
        />
        <TextField
          label={text('page-batch.use.place')}
          hint={text('page-batch.use.place.hint')}
          value={draft.place}
          onValue={(place) => change({ place })}
          required
          error={mutation.fieldError('/place')}
        />
      </div>
      <PartOf batch={props.batch} draft={draft.part} onDraft={(part) => change({ part })} wrong={mutation.fieldError} />
      <MeasureField
        label={text('page-batch.use.area')}
        kind="areaM2"
        value={draft.area}
        onValue={(area) => change({ area })}
        hint={text('page-batch.use.area.hint')}
        error={mutation.fieldError('/areaM2')}
      />
      <FoldedFields draft={draft} change={change} wrong={mutation.fieldError} />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.use.write')}
      </button>
    </form>
  );
}

interface FoldedProps {
  readonly draft: UseDraft;
  readonly change: (part: Partial<UseDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function FoldedFields({ draft, change, wrong }: FoldedProps) {
  const { text } = useBatchWords();
  return (
    <details class="more">
      <summary>{text('page-batch.use.more')}</summary>
      <MeasureField
        label={text('page-batch.volume')}
        kind="volumeL"
        value={draft.volume}
        onValue={(volume) => change({ volume })}
        error={wrong('/volumeL')}
      />
      <TextField
        label={text('page-batch.when')}
        type="datetime-local"
        hint={text('page-batch.when.hint')}
        value={draft.at}
        onValue={(at) => change({ at })}
        error={wrong('/at')}
      />
      <TextField
        label={text('page-batch.note')}
        value={draft.note}
        onValue={(note) => change({ note })}
        error={wrong('/note')}
      />
    </details>
  );
}
