/** What came in: messages that could not be used, and foreign topics that can be understood. */
import { useRef } from 'preact/hooks';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { Foreign, useForeign } from './foreign.tsx';
import { Refusals, useRefusals } from './refusals.tsx';
import { RefusedConnections } from './refused-connections.tsx';
import { useIncomingWords } from './use-incoming-words.ts';

export function IncomingPage() {
  const { text } = useIncomingWords();
  const heading = usePage(text('page-incoming.title'));
  const refusals = useRefusals();
  const foreign = useForeign();
  const foreignFirst = useOrder(refusals, foreign);
  const foreignPart = (
    <Part id="foreign" title={text('page-incoming.foreign')}>
      <Foreign {...foreign} />
    </Part>
  );
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-incoming.title')}
        </h1>
      </div>
      {foreignFirst && foreignPart}
      <Part id="refused" title={text('page-incoming.not-used')}>
        <Refusals {...refusals} />
      </Part>
      <Part id="turned-away" title={text('page-incoming.connections')}>
        <May to="keeper" otherwise={<p class="quiet">{text('page-incoming.connections.not-yours')}</p>}>
          <RefusedConnections />
        </May>
      </Part>
      {foreignFirst === false && foreignPart}
    </div>
  );
}

/**
 * Whether devices that nobody knows come first: they are all there is. It stays as it was when the page opened, for
 * nothing may move away under a finger; undefined until that is known.
 */
function useOrder(
  refusals: ReturnType<typeof useRefusals>,
  foreign: ReturnType<typeof useForeign>,
): boolean | undefined {
  const decided = useRef<boolean | undefined>(undefined);
  if (refusals.error !== undefined || foreign.error !== undefined) decided.current ??= false;
  if (refusals.value && foreign.value)
    decided.current ??= refusals.value.total === 0 && foreign.value.messages.some(({ isUsed }) => !isUsed);
  return decided.current;
}
