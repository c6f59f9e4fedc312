/** Says what a picked value is, tries that against the last messages, and saves it. */
import { useState } from 'preact/hooks';
import type { z } from 'zod';
import type { mappingInputSchema, mappingTrialSchema } from '../../../../shared/contracts/ingest.ts';
import { type ForeignUnit, foreignUnitsOf, type Quantity, quantities } from '../../../../shared/quantity.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { saveMapping, tryMapping } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { quantityName, shortName, signOf } from '../../ui/format/quantity-words.ts';
import { readNumber } from '../../ui/format/read-number.ts';
import { formatTemp, type TempUnit } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { wildcardCount } from './json-pointer.ts';
import { refusalName, renderRefusal } from './refusal-words.ts';
import './incoming.css';

type Unit = ForeignUnit;
type Trial = z.output<typeof mappingTrialSchema>;

const unitWords: Partial<Record<Unit, string>> = {
  C: '°C',
  F: '°F',
  '/': 'a fraction, 0 to 1',
  '%RH': '% relative humidity',
};

interface MappingFormProps {
  readonly filter: string;
  readonly pointer: string;
  readonly onPointer: (pointer: string) => void;
  readonly onSaved: () => Promise<void>;
}

/** What a mapping says so far, and trying and saving it. */
function useMappingDraft({ filter, pointer, onSaved }: MappingFormProps) {
  const mutation = useMutation();
  const sites = useInstallation((installation) => installation.sites);
  const [quantity, setQuantity] = useState<Quantity>('temperature');
  const [unit, setUnit] = useState<Unit>('C');
  const [scale, setScale] = useState('1');
  const [site, setSite] = useState<string>();
  const [probe, setProbe] = useState(wildcardCount(filter) > 0 ? 'shed-{1}' : 'shed');
  const [timePointer, setTimePointer] = useState('');
  const [trial, setTrial] = useState<{ of: string; results: Trial['results'] }>();
  const [saved, setSaved] = useState(false);

  const mapping: z.input<typeof mappingInputSchema> = {
    filter,
    pointer,
    quantity,
    unit,
    scale: readNumber(scale) ?? Number.NaN,
    site: site ?? sites[0]?.id ?? '',
    probe: probe.trim(),
    ...(timePointer.trim() === '' ? {} : { timePointer: timePointer.trim() }),
  };
  const key = JSON.stringify(mapping);
  const isTried = trial?.of === key;
  const works = isTried && trial.results.some((result) => result.reading !== null);
  const tryIt = () => {
    setSaved(false);
    void mutation.run(async () => setTrial({ of: key, results: (await tryMapping(mapping)).results }));
  };
  const save = () =>
    mutation
      .run(async () => {
        await saveMapping(mapping);
        await onSaved();
      })
      .then((done) => setSaved(done));
  const setQuantityWithUnit = (next: Quantity) => {
    setQuantity(next);
    setUnit(foreignUnitsOf(next)[0] ?? 'C');
  };
  return {
    ...{ sites, quantity, setQuantity: setQuantityWithUnit, unit, setUnit, scale, setScale, setSite, probe, setProbe },
    ...{
      timePointer,
      setTimePointer,
      mapping,
      results: isTried ? trial.results : null,
      works,
      saved,
      tryIt,
      save,
      mutation,
    },
  };
}

type MappingDraft = ReturnType<typeof useMappingDraft>;

export function MappingForm(props: MappingFormProps) {
  const draft = useMappingDraft(props);
  const { mutation } = draft;
  return (
    <form
      class="form mapping-form"
      aria-label="Mapping"
      onSubmit={(event) => {
        event.preventDefault();
        draft.tryIt();
      }}
    >
      <TextField
        label="Value at"
        mono
        hint="A JSON Pointer; empty takes the whole message."
        value={props.pointer}
        onValue={props.onPointer}
        error={mutation.fieldError('/pointer')}
      />
      <WhatItIs draft={draft} />
      <WhoseItIs draft={draft} filter={props.filter} />
      <div class="buttons">
        <button type="submit" disabled={mutation.busy}>
          Try it on what was heard
        </button>
        <button
          type="button"
          class="primary"
          disabled={mutation.busy || !draft.works}
          onClick={() => void draft.save()}
        >
          Save the mapping
        </button>
      </div>
      <Refusal error={mutation.error} />
      {draft.results && <TrialResults results={draft.results} />}
      <p role="status">{draft.saved && 'Saved: its readings now come in. Claim the probe next.'}</p>
    </form>
  );
}

function WhatItIs({ draft }: { readonly draft: MappingDraft }) {
  return (
    <div class="field-row">
      <PickField
        label="It is"
        value={draft.quantity}
        choices={quantities.map((one) => [one, capital(quantityName(one))] as const)}
        onValue={draft.setQuantity}
        error={draft.mutation.fieldError('/quantity')}
      />
      <PickField
        label="Sent in"
        value={draft.unit}
        choices={foreignUnitsOf(draft.quantity).map((one) => [one, unitWords[one] ?? one] as const)}
        onValue={draft.setUnit}
        error={draft.mutation.fieldError('/unit')}
      />
      <TextField
        label="Times"
        hint="0.1 where tenths are sent."
        inputMode="decimal"
        value={draft.scale}
        onValue={draft.setScale}
        error={draft.mutation.fieldError('/scale')}
      />
    </div>
  );
}

function WhoseItIs({ draft, filter }: { readonly draft: MappingDraft; readonly filter: string }) {
  return (
    <div class="field-row">
      <PickField
        label="Site"
        value={draft.mapping.site}
        choices={draft.sites.map((one) => [one.id, one.name] as const)}
        onValue={draft.setSite}
        error={draft.mutation.fieldError('/site')}
      />
      <TextField
        label="Probe"
        mono
        hint={wildcardCount(filter) > 0 ? '{1} is what the first wildcard stood for.' : undefined}
        value={draft.probe}
        onValue={draft.setProbe}
        required
        error={draft.mutation.fieldError('/probe')}
      />
      <TextField
        label="Time at"
        mono
        hint="Empty: the time of arrival."
        value={draft.timePointer}
        onValue={draft.setTimePointer}
        error={draft.mutation.fieldError('/timePointer')}
      />
    </div>
  );
}

function TrialResults({ results }: { readonly results: Trial['results'] }) {
  const say = useSay(renderRefusal);
  const { unit } = usePrefs();
  if (results.length === 0) return <p class="quiet">No message was kept to try it on. Wait for one, then try again.</p>;
  return (
    <ul class="trial">
      {results.map((result) => (
        <li key={`${result.topic} ${result.payload}`}>
          <code>{result.topic}</code>{' '}
          {result.reading ? (
            <>
              becomes {shortName(result.reading.quantity)} <b>{exactWords(result.reading, unit)}</b> of{' '}
              {result.reading.site}/{result.reading.probe}
            </>
          ) : (
            <span class="wrong">
              {result.refusal
                ? `${say(refusalName(result.refusal.reason))}: ${say(result.refusal.messages.message)}`
                : 'gives no reading'}
            </span>
          )}
        </li>
      ))}
    </ul>
  );
}

/** To the last decimal: it is to be set beside what was sent. */
function exactWords({ quantity, value }: NonNullable<Trial['results'][number]['reading']>, unit: TempUnit): string {
  return quantity === 'temperature' ? formatTemp(value, unit) : `${value}\u00a0${signOf(quantity)}`;
}
