/** The few inputs each kind of entry has. */
import type { FunctionComponent } from 'preact';
import { coverNames, covers } from '../../../../shared/contracts/domain/batch.ts';
import {
  amountsSeen,
  type EntryKind,
  growthColours,
  growthPlaces,
  judgements,
  smells,
} from '../../../../shared/entry.ts';
import { positions, type Stage } from '../../../../shared/names.ts';
import { capital } from '../../ui/format/words.ts';
import { TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import type { EntryDraft } from './entry-draft.ts';
import { amountNames, colourNames, judgementNames, measuredPlaceNames, placeNames, smellNames } from './entry-words.ts';
import { SqueezeFields } from './squeeze-fields.tsx';
import { OneOf, SomeOf } from './thumb-choice.tsx';
import { VerdictFields } from './verdict-fields.tsx';

interface EntryFieldsProps {
  readonly draft: EntryDraft;
  /** Of the pile. */
  readonly stage: Stage;
  readonly onDraft: (change: Partial<EntryDraft>) => void;
  readonly errors: ReadonlyMap<string, string>;
}

interface KindProps extends Omit<EntryFieldsProps, 'errors'> {
  /** What is wrong with a field of the entry. */
  readonly wrong: (field: string) => string | undefined;
}

export function EntryFields({ draft, stage, onDraft, errors }: EntryFieldsProps) {
  const Fields = fieldsOf[draft.kind];
  return <Fields draft={draft} stage={stage} onDraft={onDraft} wrong={(field) => errors.get(`/what/${field}`)} />;
}

const named = <Value extends string>(values: readonly Value[], names: Record<Value, string>) =>
  values.map((value) => [value, capital(names[value])] as const);

const Nothing = () => null;

function Measured({ draft, onDraft, wrong }: KindProps) {
  return (
    <>
      <OneOf
        legend="Where"
        value={draft.position}
        choices={named(positions, measuredPlaceNames)}
        onValue={(position) => onDraft({ position })}
        error={wrong('position')}
      />
      <MeasureField
        label="Temperature"
        kind="tempC"
        value={draft.temperature}
        onValue={(temperature) => onDraft({ temperature })}
        error={wrong('temperatureC')}
        eager
      />
      <details class="more" open={draft.moisture !== ''}>
        <summary>A moisture meter’s reading</summary>
        <TextField
          label="What the meter shows"
          unit="% of volume"
          hint="Kept as the meter shows it. It is not the moisture of a weighed sample or of a recipe, which are of the wet mass."
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
  return (
    <MeasureField
      label="Water given"
      kind="volumeL"
      value={draft.amount}
      onValue={(amount) => onDraft({ amount })}
      error={wrong('amountL')}
      eager
    />
  );
}

function Rained({ draft, onDraft, wrong }: KindProps) {
  return (
    <MeasureField
      label="On the gauge since it was last read"
      kind="rainMm"
      value={draft.amount}
      onValue={(amount) => onDraft({ amount })}
      error={wrong('rainMm')}
      eager
    />
  );
}

function Reshaped({ draft, onDraft, wrong }: KindProps) {
  return (
    <MeasureField
      label="Depth afterwards"
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
  return (
    <OneOf
      legend="With what"
      optional
      value={draft.cover}
      choices={named(realCovers, coverNames)}
      onValue={(cover) => onDraft({ cover })}
    />
  );
}

function Moved({ draft, onDraft, wrong }: KindProps) {
  return (
    <TextField label="Where to" value={draft.place} onValue={(place) => onDraft({ place })} error={wrong('place')} />
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

function Smelt({ draft, onDraft, wrong }: KindProps) {
  return (
    <SomeOf
      legend="It smells"
      values={draft.smells}
      choices={named(smells, smellNames)}
      onValues={(chosen) => onDraft({ smells: chosen })}
      error={wrong('smells')}
    />
  );
}

function Growth({ draft, onDraft, wrong }: KindProps) {
  return (
    <>
      <OneOf
        legend="Colour"
        value={draft.colour}
        choices={named(growthColours, colourNames)}
        onValue={(colour) => onDraft({ colour })}
        error={wrong('colour')}
      />
      {draft.colour === 'other' && (
        <TextField
          label="Which colour"
          value={draft.otherColour}
          onValue={(otherColour) => onDraft({ otherColour })}
          error={wrong('otherColour')}
        />
      )}
      <PlaceSeen draft={draft} onDraft={onDraft} />
      <HowMany draft={draft} onDraft={onDraft} />
    </>
  );
}

function Pests({ draft, onDraft, wrong }: KindProps) {
  return (
    <>
      <TextField
        label="What you saw"
        hint="Flies, mites, ants, mice, droppings."
        value={draft.what}
        onValue={(what) => onDraft({ what })}
        error={wrong('what')}
      />
      <HowMany draft={draft} onDraft={onDraft} />
    </>
  );
}

function Sample({ draft, onDraft, wrong }: KindProps) {
  return (
    <div class="field-row">
      <TextField
        label="Weighed as taken"
        unit="g"
        inputMode="decimal"
        value={draft.wetG}
        onValue={(wetG) => onDraft({ wetG })}
        error={wrong('wetG')}
      />
      <TextField
        label="Weighed again, dry"
        unit="g"
        hint="Dried until it loses no more; then its moisture is known. Can be added later."
        inputMode="decimal"
        value={draft.dryG}
        onValue={(dryG) => onDraft({ dryG })}
        error={wrong('dryG')}
      />
    </div>
  );
}

function Readiness({ draft, onDraft, wrong }: KindProps) {
  return (
    <>
      {(['smell', 'look'] as const).map((sense) => (
        <OneOf
          key={sense}
          legend={capital(sense)}
          value={draft[sense]}
          choices={named(judgements, judgementNames)}
          onValue={(chosen) => onDraft({ [sense]: chosen })}
          error={wrong(sense)}
        />
      ))}
      <OneOf
        legend="Ready"
        value={draft.ready}
        choices={[
          ['yes', 'Yes, by nose and eye'],
          ['no', 'Not yet'],
        ]}
        onValue={(ready) => onDraft({ ready: ready === 'yes' ? 'yes' : 'no' })}
        error={wrong('ready')}
      />
    </>
  );
}

function PlaceSeen({ draft, onDraft }: Pick<KindProps, 'draft' | 'onDraft'>) {
  return (
    <OneOf
      legend="Where"
      optional
      value={draft.place}
      choices={named(growthPlaces, placeNames)}
      onValue={(place) => onDraft({ place })}
    />
  );
}

function HowMany({ draft, onDraft }: Pick<KindProps, 'draft' | 'onDraft'>) {
  return (
    <OneOf
      legend="How many"
      optional
      value={draft.howMany}
      choices={named(amountsSeen, amountNames)}
      onValue={(howMany) => onDraft({ howMany })}
    />
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
