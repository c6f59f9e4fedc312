/** What came in: messages that could not be used, and foreign topics that can be understood. */

import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Foreign } from './foreign.tsx';
import { Refusals } from './refusals.tsx';
import { RefusedConnections } from './refused-connections.tsx';
import { useIncomingWords } from './use-incoming-words.ts';

export function IncomingPage() {
  const { text } = useIncomingWords();
  const heading = usePage(text('page-incoming.title'));
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-incoming.title')}
        </h1>
      </div>
      <Part id="refused" title={text('page-incoming.not-used')}>
        <Refusals />
      </Part>
      <Part id="turned-away" title={text('page-incoming.connections')}>
        <May to="keeper" otherwise={<p class="quiet">{text('page-incoming.connections.not-yours')}</p>}>
          <RefusedConnections />
        </May>
      </Part>
      <Part id="foreign" title={text('page-incoming.foreign')}>
        <Foreign />
      </Part>
    </div>
  );
}
