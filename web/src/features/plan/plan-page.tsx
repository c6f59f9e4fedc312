/** The planner: starter, water and heap, each at an address of its own. */
import { useRoute } from 'preact-iso';
import { UnitChoices } from '../../ui/parts/measure-field.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { HeapPlan } from './heap-plan.tsx';
import { StarterPlan } from './starter-plan.tsx';
import { usePlanDraft } from './use-plan-draft.ts';
import { usePlanWords } from './use-plan-words.ts';
import { WaterPlan } from './water-plan.tsx';
import './plan.css';

const questions = ['starter', 'water', 'heap'] as const;

export function PlanPage() {
  const { text } = usePlanWords();
  const { params } = useRoute();
  const id = questions.find((name) => name === params.what) ?? 'starter';
  const { plan, units, change, isEmpty, clear } = usePlanDraft();
  const title = text(`page-plan.${id}.title`);
  const heading = usePage(title);
  return (
    <div class="page plan-page">
      <nav class="questions" aria-label={text('page-plan.choose')}>
        <ul>
          {questions.map((name) => (
            <li key={name}>
              <a href={`/plan/${name}`} aria-current={name === id ? 'page' : undefined}>
                {text(`page-plan.${name}`)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      <UnitChoices />
      {id === 'starter' && <StarterPlan draft={plan.starter} change={change.starter} units={units} />}
      {id === 'water' && <WaterPlan draft={plan.water} change={change.water} units={units} />}
      {id === 'heap' && <HeapPlan draft={plan.heap} change={change.heap} units={units} />}
      {!isEmpty && (
        <p class="plan-clear no-print">
          <span class="hint">{text('page-plan.kept')}</span>{' '}
          <button type="button" class="plain" onClick={clear}>
            {text('page-plan.clear')}
          </button>
        </p>
      )}
      <p class="hint plan-foot">{text('page-plan.foot')}</p>
    </div>
  );
}
