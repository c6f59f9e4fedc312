/** What came in: messages that could not be used, and foreign topics that can be understood. */

import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Foreign } from './foreign.tsx';
import { Refusals } from './refusals.tsx';
import { RefusedConnections } from './refused-connections.tsx';

export function IncomingPage() {
  const heading = usePage('Messages we could not use');
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          Messages we could not use
        </h1>
      </div>
      <Part id="refused" title="Not used">
        <Refusals />
      </Part>
      <Part id="turned-away" title="Refused connections">
        <May to="keeper" otherwise={<p class="quiet">Keepers and owners see here who was turned away.</p>}>
          <RefusedConnections />
        </May>
      </Part>
      <Part id="foreign" title="Topics of other devices">
        <Foreign />
      </Part>
    </div>
  );
}
