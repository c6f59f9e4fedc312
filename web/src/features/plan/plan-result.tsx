/** A plan as it is told: its sentence, what to mind, its figures, its working and where defaults come from. */
import type { ComponentChildren } from 'preact';
import type { DefaultTaken, Remark, WorkingStep } from '../../../../shared/contracts/plan.ts';
import { figure } from '../../../../shared/measure.ts';
import type { Planned } from './plan-asks.ts';

interface Told {
  readonly says: string;
  readonly remarks: readonly Remark[];
  readonly cautions: readonly string[];
  readonly working: readonly WorkingStep[];
  readonly defaults: readonly DefaultTaken[];
}

interface PlanResultProps<Answer extends Told> {
  readonly planned: Planned<Answer>;
  /** What is asked first, said while it is missing. */
  readonly waitsFor: string;
  readonly children: (answer: Answer) => ComponentChildren;
}

export function PlanResult<Answer extends Told>({ planned, waitsFor, children }: PlanResultProps<Answer>) {
  const { answer, errors } = planned;
  const impossible = errors.get('');
  return (
    <section class="plan-told" aria-labelledby="plan-comes-to">
      <h2 id="plan-comes-to" class="unseen">
        What it comes to
      </h2>
      <div role="status">
        {answer ? <p class="sentence">{answer.says}</p> : <p class="sentence plan-waits">{impossible ?? waitsFor}</p>}
        {answer && <Remarks remarks={answer.remarks} />}
      </div>
      {answer && (
        <>
          {children(answer)}
          {answer.cautions.map((caution) => (
            <p class="caution" key={caution}>
              <span class="label">Caution</span> {caution}
            </p>
          ))}
          <Working steps={answer.working} defaults={answer.defaults} />
        </>
      )}
    </section>
  );
}

function Remarks({ remarks }: { readonly remarks: readonly Remark[] }) {
  if (remarks.length === 0) return null;
  return (
    <ul class="remarks">
      {remarks.map(({ tone, says }) => (
        <li key={says} class={`remark remark-${tone}`}>
          {tone === 'act' && <b>Look again. </b>}
          {says}
        </li>
      ))}
    </ul>
  );
}

function Working({
  steps,
  defaults,
}: {
  readonly steps: readonly WorkingStep[];
  readonly defaults: readonly DefaultTaken[];
}) {
  return (
    <>
      <h3 class="sub-head">How it was worked out</h3>
      <ol class="working">
        {steps.map((step, index) => (
          <li key={`${index}-${step.what}`}>
            <span class="working-what">{step.what}</span>
            <span class="working-sum">
              {step.sum} = <b>{amountText(step.value, step.unit)}</b>
            </span>
          </li>
        ))}
      </ol>
      {defaults.length > 0 && (
        <>
          <h3 class="sub-head">What nobody measured, and what was taken</h3>
          <dl class="ledger">
            {defaults.map(({ what, value, unit, origin }) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>
                  <b>{amountText(value, unit)}</b>
                  <span class="origin">{origin}</span>
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </>
  );
}

function amountText(value: number, unit: string): string {
  return unit === '' ? figure(value) : `${figure(value)}\u00a0${unit.replaceAll(' ', '\u00a0')}`;
}

/** Figures beside each other, the ones wanted at the tap or the scales. */
export function Figures({
  rows,
}: {
  readonly rows: readonly (readonly [what: string, value: string, note?: string])[];
}) {
  return (
    <dl class="figures">
      {rows.map(([what, value, note]) => (
        <div key={what}>
          <dt>{what}</dt>
          <dd>
            <b>{value}</b>
            {note && <span class="origin">{note}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
