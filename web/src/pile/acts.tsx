/**
 * web/pile/acts.tsx: what was done to a pile, and writing down one more act in a few taps.
 */
import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../shared/api/piles.ts';
import { toInstant } from '../../../shared/api/time.ts';
import { type ActKind, actKindSchema, actKinds } from '../../../shared/batch.ts';
import { addAct } from '../api/routes.ts';
import { dayAndTime, instantOfWall, wallOfInstant } from '../format/local-time.ts';
import { sentenceIn } from '../format/temperature.ts';
import { actNames } from '../format/words.ts';
import { useHouseNow, useReader } from '../live/use-house.ts';
import { Refusal, TextField } from '../parts/forms.tsx';
import { Part } from '../parts/part.tsx';
import { useDeed } from '../parts/use-deed.ts';
import { usePrefs } from '../prefs.ts';
import { actCautions, hottestC } from './act-caution.ts';
import { typedNumber } from './batch-fields.tsx';
import { HandOffers } from './hand-offers.tsx';

interface ActsProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function Acts({ pile, onChange }: ActsProps) {
  const [kind, setKind] = useState<ActKind | null>(null);
  return (
    <Part id="acts" title="What was done">
      <HandOffers pile={pile} onChange={onChange} />
      {pile.batch && (
        <fieldset class="act-buttons">
          <legend class="unseen">Write down an act</legend>
          {actKinds.map((one) => (
            <button
              type="button"
              key={one}
              aria-pressed={one === kind}
              onClick={() => setKind(one === kind ? null : one)}
            >
              {actNames[one]}
            </button>
          ))}
        </fieldset>
      )}
      {kind && (
        <ActForm
          key={kind}
          kind={kind}
          pile={pile}
          onDone={async () => {
            await onChange();
            setKind(null);
          }}
        />
      )}
      <ActList pile={pile} />
    </Part>
  );
}

function ActForm({
  kind,
  pile,
  onDone,
}: {
  readonly kind: ActKind;
  readonly pile: PileDetail;
  readonly onDone: () => Promise<void>;
}) {
  const { unit } = usePrefs();
  const reader = useReader(pile.site);
  const nowMs = useHouseNow();
  const deed = useDeed();
  /** Null while it was done just now. */
  const [at, setAt] = useState<string | null>(null);
  const [amountL, setAmountL] = useState('');
  const [depthCm, setDepthCm] = useState('');
  const [note, setNote] = useState('');
  const depth = typedNumber(depthCm);

  const write = () =>
    deed.run(async () => {
      const atMs = at === null ? undefined : instantOfWall(at, reader.timeZone);
      const amount = typedNumber(amountL);
      await addAct(pile.id, {
        kind,
        ...(atMs === undefined ? {} : { at: toInstant(atMs) }),
        ...(amount === undefined ? {} : { amountL: amount }),
        ...(depth === undefined ? {} : { depthM: Number((depth / 100).toPrecision(12)) }),
        ...(note.trim() === '' ? {} : { note: note.trim() }),
      });
      await onDone();
    });

  return (
    <form
      class="form act-form"
      aria-label={`${actNames[kind]}: write it down`}
      onSubmit={(event) => {
        event.preventDefault();
        void write();
      }}
    >
      {actCautions(kind, hottestC(pile.positions)).map((caution) => (
        <p class="caution" key={caution}>
          <span class="label">Caution</span> {sentenceIn(unit, caution)}
        </p>
      ))}
      <div class="field-row">
        {kind === 'watered' && (
          <TextField
            label="Water given"
            unit="litres"
            inputMode="decimal"
            value={amountL}
            onValue={setAmountL}
            required
            error={deed.fieldError('/amountL')}
          />
        )}
        {(kind === 'spread' || kind === 'heaped') && (
          <TextField
            label="Depth afterwards"
            unit="cm"
            inputMode="decimal"
            value={depthCm}
            onValue={setDepthCm}
            error={deed.fieldError('/depthM')}
          />
        )}
        <TextField
          label="When"
          type="datetime-local"
          value={at ?? wallOfInstant(nowMs, reader.timeZone)}
          onValue={setAt}
          error={deed.fieldError('/at')}
        />
      </div>
      <TextField
        label="Note"
        hint="Smell, look, feel: whatever the next batch should know."
        value={note}
        onValue={setNote}
        required={kind === 'note'}
        error={deed.fieldError('/note')}
      />
      <Refusal error={deed.error} />
      <button type="submit" class="primary" disabled={deed.busy}>
        Write it down
      </button>
    </form>
  );
}

function ActList({ pile }: { readonly pile: PileDetail }) {
  const reader = useReader(pile.site);
  const acts = [...pile.acts].sort((one, other) => Date.parse(other.at) - Date.parse(one.at));
  if (acts.length === 0)
    return <p class="quiet">Nothing written down yet. A turn or a watering explains what the probes show.</p>;
  return (
    <ol class="diary">
      {acts.map((act) => {
        const kind = actKindSchema.safeParse(act.kind);
        return (
          <li key={act.id}>
            <time dateTime={act.at}>{dayAndTime(Date.parse(act.at), reader)}</time>
            <p>
              <b>{kind.success ? actNames[kind.data] : act.kind}</b>
              {act.amountL !== undefined && `, ${act.amountL} litres`}
              {act.depthM !== undefined && `, to ${Math.round(act.depthM * 100)} cm`}
              {act.note && <span class="diary-note"> {act.note}</span>}
            </p>
          </li>
        );
      })}
    </ol>
  );
}
