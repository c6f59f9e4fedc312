/** A plan in words and figures: its sentence, what to mind, its figures, its working and where defaults come from. */
import type { ComponentChildren } from 'preact';
import type { PlanRemark, PlanStep, TakenFact, Written } from '../../../../core/plan/notebook.ts';
import type { Units } from '../../../../shared/measure.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import type { Planned } from './plan-asks.ts';
import { useSayPlan, useSaySum } from './plan-say.ts';
import { usePlanWords } from './use-plan-words.ts';
import '../../ui/parts/remark.css';
import './plan.css';

interface PlanResultProps<Answer extends Written> {
  readonly planned: Planned<Answer>;
  /** Other than those of the person. */
  readonly units?: Units;
  /** What is asked first, said while it is missing. */
  readonly waitsFor: string;
  readonly children: (answer: Answer) => ComponentChildren;
}

export function PlanResult<Answer extends Written>({ planned, units, waitsFor, children }: PlanResultProps<Answer>) {
  const say = useSayPlan(units);
  const { text } = usePlanWords();
  const { answer, errors } = planned;
  const impossible = errors.get('');
  return (
    <section class="plan-result" aria-labelledby="plan-comes-to">
      <h2 id="plan-comes-to" class="unseen">
        {text('page-plan.comes-to')}
      </h2>
      <div role="status">
        {answer ? (
          <p class="sentence">{say(answer.says)}</p>
        ) : (
          <p class="sentence plan-waits">{impossible ?? waitsFor}</p>
        )}
        {answer && <Remarks remarks={answer.remarks} say={say} />}
      </div>
      {answer && (
        <>
          {children(answer)}
          {answer.cautions.map(say).map((caution) => (
            <p class="caution" key={caution}>
              <span class="label">{text('page-plan.caution')}</span> {caution}
            </p>
          ))}
          <Working steps={answer.working} defaults={answer.defaults} units={units} />
        </>
      )}
    </section>
  );
}

function Remarks({ remarks, say }: { readonly remarks: readonly PlanRemark[]; readonly say: Say }) {
  const { text } = usePlanWords();
  if (remarks.length === 0) return null;
  return (
    <ul class="remarks">
      {remarks.map(({ tone, says }, index) => (
        <li key={`${index}-${says.code}`} class={`remark remark-${tone}`}>
          {tone === 'act' && <b>{text('page-plan.look-again')} </b>}
          {say(says)}
        </li>
      ))}
    </ul>
  );
}

function Working({
  steps,
  defaults,
  units,
}: {
  readonly steps: readonly PlanStep[];
  readonly defaults: readonly TakenFact[];
  readonly units: Units | undefined;
}) {
  const say = useSayPlan(units);
  const { text } = usePlanWords();
  const saySum = useSaySum(units);
  return (
    <>
      <h3 class="sub-head">{text('page-plan.working')}</h3>
      <ol class="working">
        {steps.map((step, index) => (
          <li key={`${index}-${step.what.code}`}>
            <span class="working-what">{say(step.what)}</span>
            <span class="working-sum">
              {saySum(step.sum)} = <b>{saySum([step])}</b>
            </span>
          </li>
        ))}
      </ol>
      {defaults.length > 0 && (
        <>
          <h3 class="sub-head">{text('page-plan.taken')}</h3>
          <dl class="ledger">
            {defaults.map((taken, index) => (
              <div key={`${index}-${taken.what.code}`}>
                <dt>{say(taken.what)}</dt>
                <dd>
                  <b>{saySum([taken])}</b>
                  <span class="origin">{say(taken.origin)}</span>
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </>
  );
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
