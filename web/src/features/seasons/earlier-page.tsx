/** An earlier batch out of a notebook or a log, looked at before it is kept. */

import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { EarlierAnswer, EarlierBatch } from '../../../../shared/contracts/seasons.ts';
import type { Stage } from '../../../../shared/names.ts';
import { type Material, materialNames, materials } from '../../../../shared/profiles/material-names.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { readNumber } from '../../ui/format/read-number.ts';
import { formatTemp } from '../../ui/format/temperature.ts';
import { capital, counted, stageNames } from '../../ui/format/words.ts';
import { Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { notGiven } from '../pile/batch-fields.tsx';
import { bringEarlier } from './season-api.ts';
import './season.css';
import './measure-table.css';

const example = '2030-04-03  21  14\n2030-04-04  34  15\n2030-04-05  44  16';

type DateOrder = NonNullable<EarlierBatch['dateOrder']>;

export function EarlierPage() {
  const heading = usePage('An earlier batch');
  const { route } = useLocation();
  const sites = useInstallation((installation) => installation.sites);
  const { unit } = usePrefs();
  const mutation = useMutation();
  const [picked, setPicked] = useState('');
  const [name, setName] = useState('');
  const [stage, setStage] = useState<Stage>('bran');
  const [material, setMaterial] = useState<Material | ''>('');
  const [depthCm, setDepthCm] = useState('');
  const [outcome, setOutcome] = useState('');
  const [table, setTable] = useState('');
  const [order, setOrder] = useState<DateOrder | ''>('');
  const [shown, setShown] = useState<EarlierAnswer>();

  const site = picked || (sites[0]?.id ?? '');
  const depth = readNumber(depthCm);
  const ask: EarlierBatch = {
    site,
    name: name.trim(),
    stage,
    recipe: {
      ...(material !== '' && { material }),
      ...(depth !== undefined && { depthM: Number((depth / 100).toPrecision(12)) }),
    },
    ...(outcome.trim() !== '' && { outcome: outcome.trim() }),
    table,
    ...(order !== '' && { dateOrder: order }),
    temperatureUnit: unit,
  };
  /** What was looked at must be what is kept. */
  const change =
    <T,>(set: (value: T) => void) =>
    (value: T) => {
      set(value);
      setShown(undefined);
    };
  const run = (keep: boolean) =>
    mutation.run(async () => {
      const answer = await bringEarlier({ ...ask, keep });
      if (answer.batchId === null) setShown(answer);
      else route(`/batches/${encodeURIComponent(answer.batchId)}`);
    });

  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        An earlier batch
      </h1>
      <p class="lead">
        From a notebook or a log: a line for each reading, even if there was one a day. It is then compared like any
        other.
      </p>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void run(shown !== undefined && shown.problem === null);
        }}
      >
        <TextField
          label="What it is called"
          value={name}
          required
          onValue={setName}
          error={mutation.fieldError('/name')}
        />
        <PickField
          label="Site"
          value={site}
          choices={sites.map((one) => [one.id, one.name] as const)}
          onValue={change(setPicked)}
        />
        <PickField
          label="Stage"
          value={stage}
          choices={[
            ['bran', stageNames.bran],
            ['soil', stageNames.soil],
          ]}
          onValue={setStage}
        />
        <PickField
          label="Material"
          value={material}
          choices={[notGiven, ...materials.map((one) => [one, capital(materialNames[one])] as const)]}
          onValue={setMaterial}
        />
        <TextField
          label="Depth"
          unit="cm"
          inputMode="decimal"
          value={depthCm}
          onValue={setDepthCm}
          error={mutation.fieldError('/recipe/depthM')}
        />
        <Field
          label="Its temperatures"
          hint={`Day, perhaps a time, core, perhaps air, in °${unit}. A day alone is taken at noon. Other programs’ columns may be pasted.`}
          error={mutation.fieldError('/table')}
        >
          {(ids) => (
            <textarea
              {...ids}
              class="mono"
              rows={8}
              required
              placeholder={example}
              value={table}
              onInput={(event) => change(setTable)(event.currentTarget.value)}
            />
          )}
        </Field>
        <PickField
          label="In days such as 03/04/2030"
          value={order}
          choices={[
            ['', 'the table shows it'],
            ['day-first', 'the day comes first'],
            ['month-first', 'the month comes first'],
          ]}
          onValue={change(setOrder)}
        />
        <TextField label="How it came out" value={outcome} onValue={setOutcome} />
        <Refusal error={mutation.error} />
        {shown && <Shown answer={shown} site={site} />}
        <button type="submit" class="primary" disabled={mutation.busy}>
          {shown !== undefined && shown.problem === null ? 'Keep this batch' : 'Look at it first'}
        </button>
      </form>
    </div>
  );
}

function Shown({ answer, site }: { readonly answer: EarlierAnswer; readonly site: string }) {
  const { unit } = usePrefs();
  const reader = useReader(site);
  const day = (instant: string) => fullDay(Date.parse(instant), reader);
  return (
    <div class="earlier-shown" role="status">
      {answer.from !== null && answer.to !== null && answer.highestC !== null && (
        <p>
          {counted(answer.core, 'reading')} of the core from {day(answer.from)} to {day(answer.to)}, the highest{' '}
          {formatTemp(answer.highestC, unit)}; {counted(answer.air, 'reading')} of the air.
        </p>
      )}
      {answer.problem !== null && <p class="refusal">{answer.problem}</p>}
      {answer.refused.length > 0 && (
        <>
          <p>{counted(answer.refused.length, 'line')} cannot be used:</p>
          <ul class="differences">
            {answer.refused.map(({ line, text, reason }) => (
              <li key={line}>
                Line {line}, <span class="mono">{text}</span>: {reason}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
