/** The few inputs each kind of entry has. */
import type { FunctionComponent } from 'preact';
import { covers } from '../../../../shared/contracts/domain/batch.ts';
import { type EntryKind, judgements } from '../../../../shared/entry.ts';
import { positions } from '../../../../shared/names.ts';
import { TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { useLaidNames } from '../../ui/parts/use-laid-names.ts';
import { type EntryFieldsProps, type KindProps, named } from './kind-fields.ts';
import { Growth, Pests, PlaceSeen, Smelt } from './sign-fields.tsx';
import { SqueezeFields } from './squeeze-fields.tsx';
import { OneOf } from './thumb-choice.tsx';
import { useJournalWords } from './use-journal-words.ts';
import { VerdictFields } from './verdict-fields.tsx';

export function EntryFields({ draft, stage, onDraft, errors }: EntryFieldsProps) {
  const Fields = fieldsOf[draft.kind];
  return <Fields draft={draft} stage={stage} onDraft={onDraft} wrong={(field) => errors.get(`/what/${field}`)} />;
}

const Nothing = () => null;

function Measured({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <>
      <OneOf
        legend={text('page-journal.where')}
        value={draft.position}
        choices={named(positions, (position) => text('page-journal.measured.place', { position }))}
        onValue={(position) => onDraft({ position })}
        error={wrong('position')}
      />
      <MeasureField
        label={text('page-journal.measured.temperature')}
        kind="tempC"
        value={draft.temperature}
        onValue={(temperature) => onDraft({ temperature })}
        error={wrong('temperatureC')}
        eager
      />
      <details class="more" open={draft.moisture !== ''}>
        <summary>{text('page-journal.measured.meter')}</summary>
        <TextField
          label={text('page-journal.measured.moisture')}
          unit={text('page-journal.measured.moisture.unit')}
          hint={text('page-journal.measured.moisture.hint')}
          inputMode="decimal"
          value={draft.moisture}
          onValue={(moisture) => onDraft({ moisture })}
          error={wrong('moisturePct')}
        />
      </details>
    </>
  );
}

function Watered({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <MeasureField
      label={text('page-journal.watered')}
      kind="volumeL"
      value={draft.amount}
      onValue={(amount) => onDraft({ amount })}
      error={wrong('amountL')}
      eager
    />
  );
}

function Rained({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <MeasureField
      label={text('page-journal.rained')}
      kind="rainMm"
      value={draft.amount}
      onValue={(amount) => onDraft({ amount })}
      error={wrong('rainMm')}
      eager
    />
  );
}

function Reshaped({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <MeasureField
      label={text('page-journal.depth')}
      kind="depthM"
      value={draft.depth}
      onValue={(depth) => onDraft({ depth })}
      error={wrong('depthM')}
      eager
    />
  );
}

const realCovers = covers.filter((cover) => cover !== 'open');

function Covered({ draft, onDraft }: KindProps) {
  const { text } = useJournalWords();
  const names = useLaidNames();
  return (
    <OneOf
      legend={text('page-journal.covered')}
      optional
      value={draft.cover}
      choices={named(realCovers, names.cover)}
      onValue={(cover) => onDraft({ cover })}
    />
  );
}

function Moved({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <TextField
      label={text('page-journal.moved')}
      value={draft.place}
      onValue={(place) => onDraft({ place })}
      error={wrong('place')}
    />
  );
}

function Squeezed({ draft, stage, onDraft, wrong }: KindProps) {
  return (
    <SqueezeFields
      stage={stage}
      feel={draft.feel}
      onFeel={(feel) => onDraft({ feel })}
      error={wrong('feel')}
      place={<PlaceSeen draft={draft} onDraft={onDraft} />}
    />
  );
}

function Sample({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <div class="field-row">
      <TextField
        label={text('page-journal.sample.wet')}
        unit={text('page-journal.sample.unit')}
        inputMode="decimal"
        value={draft.wetG}
        onValue={(wetG) => onDraft({ wetG })}
        error={wrong('wetG')}
      />
      <TextField
        label={text('page-journal.sample.dry')}
        unit={text('page-journal.sample.unit')}
        hint={text('page-journal.sample.dry.hint')}
        inputMode="decimal"
        value={draft.dryG}
        onValue={(dryG) => onDraft({ dryG })}
        error={wrong('dryG')}
      />
    </div>
  );
}

function Readiness({ draft, onDraft, wrong }: KindProps) {
  const { text } = useJournalWords();
  return (
    <>
      {(['smell', 'look'] as const).map((sense) => (
        <OneOf
          key={sense}
          legend={text('page-journal.ready.sense', { sense })}
          value={draft[sense]}
          choices={named(judgements, (judgement) => text('page-journal.ready.judgement', { judgement }))}
          onValue={(chosen) => onDraft({ [sense]: chosen })}
          error={wrong(sense)}
        />
      ))}
      <OneOf
        legend={text('page-journal.ready')}
        value={draft.ready}
        choices={named(['yes', 'no'], (said) => text('page-journal.ready.of', { isReady: said === 'yes' }))}
        onValue={(ready) => onDraft({ ready: ready === 'yes' ? 'yes' : 'no' })}
        error={wrong('ready')}
      />
    </>
  );
}

/** A kind that is only said to have happened has none. */
const fieldsOf: Record<EntryKind, FunctionComponent<KindProps>> = {
  measured: Measured,
  watered: Watered,
  rained: Rained,
  spread: Reshaped,
  heaped: Reshaped,
  covered: Covered,
  moved: Moved,
  squeeze: Squeezed,
  smell: Smelt,
  growth: Growth,
  pests: Pests,
  sample: Sample,
  readiness: Readiness,
  verdict: VerdictFields,
  turned: Nothing,
  uncovered: Nothing,
  note: Nothing,
  photo: Nothing,
};
