/** Forgets a probe, or many, with all they said: asked once by a button, and again before it is done. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { forgetProbe, forgetProbes } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';

import { Refusal } from '../../ui/parts/forms.tsx';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

export function ForgetProbe({ probe: { site, probe } }: { readonly probe: Probe }) {
  const { text } = useProbeWords();
  return (
    <Forget
      button={text('page-probes.forget.one')}
      question={text('page-probes.forget.one.asked', { probeText: `${site}/${probe}` })}
      act={() => forgetProbe(site, probe)}
    />
  );
}

interface ForgetManyProps {
  /** As typed; empty for all that no pile has. */
  readonly find: string;
  readonly total: number;
}

export function ForgetMany({ find, total }: ForgetManyProps) {
  const { text } = useProbeWords();
  const those = { probeCount: total, isFound: find !== '', findText: find };
  return (
    <Forget
      button={text('page-probes.forget.many', those)}
      question={text('page-probes.forget.many.asked', those)}
      act={() => forgetProbes(find)}
    />
  );
}

interface ForgetProps {
  readonly button: string;
  readonly question: string;
  readonly act: () => Promise<unknown>;
}

function Forget({ button, question, act }: ForgetProps) {
  const { text } = useProbeWords();
  const mutation = useMutation();
  const [isAsked, setAsked] = useState(false);
  // The button that was pressed is gone; who works by keyboard or ear goes on at the question.
  const asked = useRef<HTMLParagraphElement>(null);
  useEffect(() => asked.current?.focus(), [isAsked]);
  if (!isAsked) {
    return (
      <button type="button" onClick={() => setAsked(true)}>
        {button}
      </button>
    );
  }
  return (
    <section class="asked-again" aria-label={button}>
      <p ref={asked} tabIndex={-1}>
        {question} {text('page-probes.forget.meaning')}
      </p>
      <div class="asked-again-answers">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() =>
            void mutation
              .run(async () => {
                await act();
                await fetchAll();
              })
              .then((done) => done && setAsked(false))
          }
        >
          {text('page-probes.forget.yes')}
        </button>
        <button type="button" disabled={mutation.busy} onClick={() => setAsked(false)}>
          {text('page-probes.forget.no')}
        </button>
      </div>
      <Refusal error={mutation.error} />
    </section>
  );
}
