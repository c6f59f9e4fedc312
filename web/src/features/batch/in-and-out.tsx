/** What went into a batch, what came of it, and whether the amounts agree. */
import { useState } from 'preact/hooks';
import type { BatchDetail, FlowView } from '../../../../shared/contracts/lineage.ts';
import { measureText } from '../../../../shared/measure.ts';
import { lineageTexts } from '../../../../shared/messages/made/en/lineage.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { capital } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { addInput, getLots, withdrawInput } from './batch-api.ts';
import { amountWords, targetNames, wayNames } from './batch-words.ts';
import { type InputDraft, InputFields, inputBody } from './input-fields.tsx';
import '../../ui/parts/remark.css';
import './batch.css';

interface PartProps {
  readonly batch: BatchDetail;
  readonly onChange: () => Promise<unknown>;
}

function placeOf({ kind, id }: FlowView['from']): string | undefined {
  if (kind === 'batch') return `/batches/${id}`;
  return kind === 'lot' ? `/lots/${id}` : undefined;
}

export function WentIn({ batch, onChange }: PartProps) {
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const mutation = useMutation();
  return (
    <Part id="went-in" title="What went in">
      {batch.inputs.length === 0 && <p class="quiet">Nothing written down.</p>}
      <ul class="flows">
        {batch.inputs.map((flow) => (
          <li key={flow.id}>
            <p>
              <FlowEnd end={flow.from} name={flow.name} />, {amountWords(flow, units) ?? 'amount not written down'}
              <span class="origin">
                {wayNames[flow.way]} {fullDay(Date.parse(flow.at), reader)}
              </span>
            </p>
            {flow.way === 'input' && (
              <May to="keeper">
                <button
                  type="button"
                  class="plain"
                  disabled={mutation.busy}
                  onClick={() => void mutation.run(() => withdrawInput(batch.id, flow.id).then(onChange))}
                >
                  Strike out<span class="unseen"> {flow.name}</span>
                </button>
              </May>
            )}
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
      <May to="keeper">{batch.endedAt === null && <AddInput batch={batch} onChange={onChange} />}</May>
    </Part>
  );
}

function FlowEnd({ end, name }: { readonly end: FlowView['from']; readonly name: string }) {
  const href = placeOf(end);
  return href ? <a href={href}>{name}</a> : <b>{name}</b>;
}

function AddInput({ batch, onChange }: PartProps) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const lots = useQuery('lots', getLots).value?.lots;
  const [inputs, setInputs] = useState<InputDraft[]>([]);
  if (!lots) return null;
  const add = () =>
    mutation.run(async () => {
      for (const input of inputs) await addInput(batch.id, inputBody(input, units));
      setInputs([]);
      await onChange();
    });
  return (
    <form
      class="form"
      aria-label="What went in"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <InputFields
        lots={lots}
        inputs={inputs}
        onInputs={setInputs}
        wrong={(pointer) => mutation.fieldError(pointer.replace(/^\/\d+/, ''))}
      />
      <Refusal error={mutation.error} />
      {inputs.length > 0 && (
        <button type="submit" class="primary" disabled={mutation.busy}>
          Write down what went in
        </button>
      )}
    </form>
  );
}

const renderLineage = rendererOf(lineageTexts);

export function CameOfIt({ batch }: { readonly batch: BatchDetail }) {
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const { laidKg, outKg, restKg, messages } = batch.amounts;
  const say = useSay(renderLineage, batch.site);
  const amounts = [
    ['Laid', laidKg],
    ['Taken off and used', outKg],
    ['Left, by what was written down', restKg],
  ] as const;
  const further = batch.outputs.filter((flow) => flow.way !== 'used');
  return (
    <Part id="came-of-it" title="What came of it">
      {batch.uses.length === 0 && further.length === 0 && <p class="quiet">Nothing was taken from it yet.</p>}
      <ul class="flows">
        {further.map((flow) => (
          <li key={flow.id}>
            <p>
              <FlowEnd end={flow.to} name={flow.name} />, {amountWords(flow, units) ?? 'amount not written down'}
              <span class="origin">
                {wayNames[flow.way]} {fullDay(Date.parse(flow.at), reader)}
              </span>
            </p>
          </li>
        ))}
        {batch.uses.map((use) => (
          <UseLine key={use.id} use={use} site={batch.site} />
        ))}
      </ul>
      <dl class="ledger amounts">
        {amounts.map(([what, value]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{value === null ? 'not known' : measureText('massKg', value, units, 3)}</b>
            </dd>
          </div>
        ))}
      </dl>
      {messages.remark && <p class="remark remark-watch">{say(messages.remark)}</p>}
    </Part>
  );
}

function UseLine({ use, site }: { readonly use: BatchDetail['uses'][number]; readonly site: string }) {
  const units = usePlanUnits();
  const reader = useReader(site);
  return (
    <li>
      <p>
        <b>{use.place}</b>, {capital(targetNames[use.target])}
        <span class="origin">
          {[
            fullDay(Date.parse(use.at), reader),
            amountWords(use, units),
            use.areaM2 !== null && measureText('areaM2', use.areaM2, units, 3),
            use.rateKgPerM2 !== null && measureText('rateKgM2', use.rateKgPerM2, units, 3),
            use.by,
          ]
            .filter(Boolean)
            .join(', ')}
        </span>
        {use.note && <span class="diary-note">{use.note}</span>}
      </p>
    </li>
  );
}
