/**
 * web/pages/incoming.tsx: what came in: messages that could not be used, and foreign topics that can be understood.
 */
import { Foreign } from '../incoming/foreign.tsx';
import { Refusals } from '../incoming/refusals.tsx';
import { TurnedAway } from '../incoming/turned-away.tsx';
import { Part } from '../parts/part.tsx';
import { usePage } from '../parts/use-page.ts';

export function IncomingPage() {
  const heading = usePage('What came in');
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          What came in
        </h1>
      </div>
      <Part id="refused" title="Not used">
        <Refusals />
      </Part>
      <Part id="turned-away" title="At the door">
        <TurnedAway />
      </Part>
      <Part id="foreign" title="Foreign topics">
        <Foreign />
      </Part>
    </div>
  );
}
