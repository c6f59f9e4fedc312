/** The planner: starter, water and heap, each at an address of its own. */
import { useRoute } from 'preact-iso';
import { UnitChoices } from '../../ui/parts/measure-field.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { HeapPlan } from './heap-plan.tsx';
import { StarterPlan } from './starter-plan.tsx';
import { WaterPlan } from './water-plan.tsx';
import './plan.css';

const questions = [
  ['starter', 'Starter', 'How much starter for how much water?', StarterPlan],
  ['water', 'Water', 'How much water does the material take?', WaterPlan],
  ['heap', 'Heap', 'What comes of mixing them, and where does it fit?', HeapPlan],
] as const;

export function PlanPage() {
  const { params } = useRoute();
  const [id, , title, Plan] = questions.find(([name]) => name === params.what) ?? questions[0];
  const heading = usePage(title);
  return (
    <div class="page plan-page">
      <nav class="questions" aria-label="What to work out">
        <ul>
          {questions.map(([name, words]) => (
            <li key={name}>
              <a href={`/plan/${name}`} aria-current={name === id ? 'page' : undefined}>
                {words}
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
      <p class="hint plan-foot">Worked out on this device; nothing is sent, and it works out of reach.</p>
    </div>
  );
}
