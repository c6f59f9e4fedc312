/** Lays one more pile. */

import { usePage } from '../../ui/parts/use-page.ts';
import { PileForm } from './pile-form.tsx';

export function NewPilePage() {
  const heading = usePage('Lay a pile');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Lay a pile
      </h1>
      <p class="lead">What you leave empty stays unknown; Branhearth then expects less and says so.</p>
      <PileForm />
    </div>
  );
}
