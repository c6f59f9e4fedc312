/** Lays one more pile. */

import { usePage } from '../../ui/parts/use-page.ts';
import { PileForm } from './pile-form.tsx';
import { useLayWords } from './use-lay-words.ts';

export function NewPilePage() {
  const { text } = useLayWords();
  const heading = usePage(text('page-lay.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-lay.title')}
      </h1>
      <p class="lead">{text('page-lay.lead')}</p>
      <PileForm />
    </div>
  );
}
