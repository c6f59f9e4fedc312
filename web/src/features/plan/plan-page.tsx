/** The planner: starter, water and heap, each at an address of its own. */
import { useRoute } from 'preact-iso';
import { UnitChoices } from '../../ui/parts/measure-field.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { HeapPlan } from './heap-plan.tsx';
import { StarterPlan } from './starter-plan.tsx';
import { usePlanWords } from './use-plan-words.ts';
import { WaterPlan } from './water-plan.tsx';
import './plan.css';

const questions = [
  ['starter', StarterPlan],
  ['water', WaterPlan],
  ['heap', HeapPlan],
] as const;

export function PlanPage() {
  const { text } = usePlanWords();
  const { params } = useRoute();
  const [id, Plan] = questions.find(([name]) => name === params.what) ?? questions[0];
  const title = text(`page-plan.${id}.title`);
  const heading = usePage(title);
  return (
    <div class="page plan-page">
      <nav class="questions" aria-label={text('page-plan.choose')}>
        <ul>
          {questions.map(([name]) => (
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
      <Plan key={id} />
      <p class="hint plan-foot">{text('page-plan.foot')}</p>
    </div>
  );
}
