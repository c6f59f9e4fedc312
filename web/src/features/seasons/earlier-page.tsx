/** An earlier batch out of a notebook or a log, looked at before it is kept. */

import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { EarlierAnswer, EarlierBatch } from '../../../../shared/contracts/seasons.ts';
import { message } from '../../../../shared/messages/message.ts';
import { type Stage, stages } from '../../../../shared/names.ts';
import { type Material, materials } from '../../../../shared/profiles/material-names.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { readNumber } from '../../data/read-number.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { unitSigns } from '../../ui/format/temperature.ts';
import { Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { useLaidNames } from '../../ui/parts/use-laid-names.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { bringEarlier } from './season-api.ts';
import { useSaySeason, useSeasonWords } from './use-season-words.ts';
import './season.css';
import './measure-table.css';
import { useSaid } from '../../data/live/use-say.ts';
import { renderImport } from '../import/render-import.ts';

const example = '2030-04-03  21  14\n2030-04-04  34  15\n2030-04-05  44  16';

type DateOrder = NonNullable<EarlierBatch['dateOrder']>;

interface EarlierDraft {
  /** '' is the first there is. */
  readonly site: string;
  readonly name: string;
  readonly stage: Stage;
  readonly material: Material | '';
  readonly depthCm: string;
  readonly outcome: string;
  readonly table: string;
  readonly order: DateOrder | '';
}

const emptyDraft: EarlierDraft = {
  site: '',
  name: '',
  stage: 'bran',
  material: '',
  depthCm: '',
  outcome: '',
  table: '',
  order: '',
};

/** What decides how the table is read. */
const asksAnew: readonly (keyof EarlierDraft)[] = ['site', 'table', 'order'];

/** An earlier batch as it is typed, and looking at it or keeping it. */
function useEarlierDraft() {
  const { route } = useLocation();
  const sites = useInstallation((installation) => installation.sites);
  const { unit } = usePrefs();
  const mutation = useMutation();
  const [draft, setDraft] = useState(emptyDraft);
  const [shown, setShown] = useState<EarlierAnswer>();

  const site = draft.site || (sites[0]?.id ?? '');
  const depth = readNumber(draft.depthCm);
  const ask: EarlierBatch = {
    site,
    name: draft.name.trim(),
    stage: draft.stage,
    recipe: {
      ...(draft.material !== '' && { material: draft.material }),
      ...(depth !== undefined && { depthM: Number((depth / 100).toPrecision(12)) }),
    },
    ...(draft.outcome.trim() !== '' && { outcome: draft.outcome.trim() }),
    table: draft.table,
    ...(draft.order !== '' && { dateOrder: draft.order }),
    temperatureUnit: unit,
  };
  const change = (part: Partial<EarlierDraft>) => {
    setDraft({ ...draft, ...part });
    // What was looked at must be what is kept.
    if (asksAnew.some((key) => key in part)) setShown(undefined);
  };
  const send = (keep: boolean) =>
    mutation.run(async () => {
      const answer = await bringEarlier({ ...ask, keep });
      if (answer.batchId === null) setShown(answer);
      else route(`/batches/${encodeURIComponent(answer.batchId)}`);
    });
  const isSeen = shown !== undefined && shown.problem === null;
  return { draft, change, site, sites, unit, shown, isSeen, send, mutation };
}

type Earlier = ReturnType<typeof useEarlierDraft>;

export function EarlierPage() {
  const { text } = useSeasonWords();
  const heading = usePage(text('page-seasons.earlier.title'));
  const earlier = useEarlierDraft();
  const { draft, change, mutation, isSeen } = earlier;
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-seasons.earlier.title')}
      </h1>
      <p class="lead">{text('page-seasons.earlier.from')}</p>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void earlier.send(isSeen);
        }}
      >
        <TextField
          label={text('page-seasons.earlier.name')}
          value={draft.name}
          required
          onValue={(name) => change({ name })}
          error={mutation.fieldError('/name')}
        />
        <WhatItWas {...earlier} />
        <ItsTemperatures {...earlier} />
        <TextField
          label={text('page-seasons.earlier.outcome')}
          value={draft.outcome}
          onValue={(outcome) => change({ outcome })}
        />
        <Refusal error={mutation.error} />
        {earlier.shown && <Shown answer={earlier.shown} site={earlier.site} />}
        <button type="submit" class="primary" disabled={mutation.busy}>
          {isSeen ? text('page-seasons.earlier.keep') : text('page-seasons.earlier.look')}
        </button>
      </form>
    </div>
  );
}

function WhatItWas({ draft, change, site, sites, mutation }: Earlier) {
  const { text } = useSeasonWords();
  const say = useSaySeason();
  const names = useLaidNames();
  return (
    <>
      <PickField
        label={text('page-seasons.choose.site')}
        value={site}
        choices={sites.map((one) => [one.id, one.name] as const)}
        onValue={(chosen) => change({ site: chosen })}
      />
      <PickField
        label={text('page-seasons.choose.stage')}
        value={draft.stage}
        choices={stages.map((stage) => [stage, say(message('season.stage', { stage }))] as const)}
        onValue={(stage) => change({ stage })}
      />
      <PickField
        label={text('page-seasons.choose.material')}
        value={draft.material}
        choices={[
          ['', text('page-seasons.earlier.not-given')],
          ...materials.map((one) => [one, names.material(one)] as const),
        ]}
        onValue={(material) => change({ material })}
      />
      <TextField
        label={text('page-seasons.earlier.depth')}
        unit="cm"
        inputMode="decimal"
        value={draft.depthCm}
        onValue={(depthCm) => change({ depthCm })}
        error={mutation.fieldError('/recipe/depthM')}
      />
    </>
  );
}

function ItsTemperatures({ draft, change, unit, mutation }: Earlier) {
  const { text } = useSeasonWords();
  return (
    <>
      <Field
        label={text('page-seasons.earlier.table')}
        hint={text('page-seasons.earlier.table.hint', { unitText: unitSigns[unit] })}
        error={mutation.fieldError('/table')}
      >
        {(ids) => (
          <textarea
            {...ids}
            class="mono"
            rows={8}
            required
            placeholder={example}
            value={draft.table}
            onInput={(event) => change({ table: event.currentTarget.value })}
          />
        )}
      </Field>
      <PickField
        label={text('page-seasons.earlier.days')}
        value={draft.order}
        choices={[
          ['', text('page-seasons.earlier.days.shown')],
          ['day-first', text('page-seasons.earlier.days.day-first')],
          ['month-first', text('page-seasons.earlier.days.month-first')],
        ]}
        onValue={(order) => change({ order })}
      />
    </>
  );
}

function Shown({ answer, site }: { readonly answer: EarlierAnswer; readonly site: string }) {
  const { text, rich } = useSeasonWords();
  const reader = useReader(site);
  const said = useSaid(renderImport);
  const day = (instant: string) => fullDay(Date.parse(instant), reader);
  return (
    <div class="earlier-shown" role="status">
      {answer.from !== null && answer.to !== null && answer.highestC !== null && (
        <p>
          {text('page-seasons.earlier.found', {
            coreCount: answer.core,
            fromText: day(answer.from),
            toText: day(answer.to),
            highestC: { valueC: answer.highestC, decimals: 1 },
            airCount: answer.air,
          })}
        </p>
      )}
      {answer.problem !== null && <p class="refusal">{said(answer, 'problem')}</p>}
      {answer.refused.length > 0 && (
        <>
          <p>{text('page-seasons.earlier.refused', { lineCount: answer.refused.length })}</p>
          <ul class="differences">
            {answer.refused.map((row) => (
              <li key={row.line}>
                {rich('page-seasons.earlier.refused.line', {
                  lineNumber: row.line,
                  lineText: row.text,
                  reasonText: said(row, 'reason'),
                  mono: (inner) => <span class="mono">{inner}</span>,
                })}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
