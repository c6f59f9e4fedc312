/** An address that shows nothing. */
import { usePage } from './use-page.ts';

export function NoPage() {
  const heading = usePage('Nothing here');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Nothing lies at this address.
      </h1>
      <p class="lead">
        <a href="/">Go to the piles</a>
      </p>
    </div>
  );
}
