/** What went into a batch, what came of it, and whether the amounts agree. */
import { useState } from 'preact/hooks';
import type { BatchDetail, FlowView } from '../../../../shared/contracts/lineage.ts';
import { lineageTexts } from '../../../../shared/messages/made/en/lineage.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { addInput, getLots, withdrawInput } from './batch-api.ts';
import { amountWords } from './batch-words.ts';
import { type InputDraft, InputFields, inputBody } from './input-fields.tsx';
import { useBatchWords } from './use-batch-words.ts';
import { UseLine } from './use-line.tsx';
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
  const { text, rich } = useBatchWords();
  const mutation = useMutation();
  return (
    <Part id="went-in" title={text('page-batch.went-in')}>
      {batch.inputs.length === 0 && <p class="quiet">{text('page-batch.went-in.none')}</p>}
      <ul class="flows">
        {batch.inputs.map((flow) => (
          <li key={flow.id}>
            <Flow flow={flow} end={flow.from} site={batch.site} />
            {flow.way === 'input' && (
              <May to="keeper">
                <button
                  type="button"
                  class="plain"
                  disabled={mutation.busy}
                  onClick={() => void mutation.run(() => withdrawInput(batch.id, flow.id).then(onChange))}
                >
                  {rich('page-batch.went-in.strike', {
                    flowName: flow.name,
                    unseen: (inner) => <span class="unseen">{inner}</span>,
                  })}
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

interface FlowProps {
  readonly flow: BatchDetail['inputs'][number];
  /** Where it came from, or went. */
  readonly end: FlowView['from'];
  readonly site: string;
}

function Flow({ flow, end, site }: FlowProps) {
  const words = useBatchWords(site);
  const href = placeOf(end);
  return (
    <p>
      {words.rich('page-batch.flow', {
        flowName: flow.name,
        end: (inner) => (href ? <a href={href}>{inner}</a> : <b>{inner}</b>),
        amountText: amountWords(flow, words) ?? words.text('page-batch.amount.none'),
        way: flow.way,
        onDayMs: Date.parse(flow.at),
        when: (inner) => <span class="origin">{inner}</span>,
      })}
    </p>
  );
}

function AddInput({ batch, onChange }: PartProps) {
  const { text } = useBatchWords();
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
      aria-label={text('page-batch.went-in')}
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
          {text('page-batch.went-in.write')}
        </button>
      )}
    </form>
  );
}

const renderLineage = rendererOf(lineageTexts);

export function CameOfIt({ batch }: { readonly batch: BatchDetail }) {
  const words = useBatchWords();
  const { text } = words;
  const { laidKg, outKg, restKg, restAtMostKg, messages } = batch.amounts;
  const say = useSay(renderLineage, batch.site);
  const amounts = [
    [text('page-batch.amounts.laid'), laidKg, text('page-batch.amounts.unknown')],
    [text('page-batch.amounts.out'), outKg, text('page-batch.amounts.unknown')],
    [
      text('page-batch.amounts.left'),
      restKg,
      restAtMostKg === null
        ? text('page-batch.amounts.unknown')
        : text('page-batch.amounts.at-most', { restKg: { value: restAtMostKg, figures: 4 } }),
    ],
  ] as const;
  const further = batch.outputs.filter((flow) => flow.way !== 'used');
  return (
    <Part id="came-of-it" title={text('page-batch.came-of')}>
      {batch.uses.length === 0 && further.length === 0 && <p class="quiet">{text('page-batch.came-of.none')}</p>}
      <ul class="flows">
        {further.map((flow) => (
          <li key={flow.id}>
            <Flow flow={flow} end={flow.to} site={batch.site} />
          </li>
        ))}
        {batch.uses.map((use) => (
          <UseLine key={use.id} use={use} site={batch.site} />
        ))}
      </ul>
      <dl class="ledger amounts">
        {amounts.map(([what, value, unknown]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{amountWords({ massKg: value, volumeL: null }, words) ?? unknown}</b>
            </dd>
          </div>
        ))}
      </dl>
      {messages.remark && <p class="remark remark-watch">{say(messages.remark)}</p>}
    </Part>
  );
}
