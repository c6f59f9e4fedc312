/** Forgets a probe, or many, with all they said: asked once by a button, and again before it is done. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { forgetProbe, forgetProbes } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { countWord } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import './probes.css';

export function ForgetProbe({ probe: { site, probe } }: { readonly probe: Probe }) {
  return (
    <Forget
      button="Forget it"
      question={`Forget ${site}/${probe} and delete every reading it sent?`}
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
  const those = total === 1 ? 'the one probe' : `all ${countWord(total)} probes`;
  return (
    <Forget
      button={`Forget ${those}${find === '' ? '' : ' found'}`}
      question={`Forget ${those} in no pile${find === '' ? '' : ` with “${find}” in the name`} and delete every reading they sent? Probes that once served a pile stay: their readings belong to its record.`}
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
        {question} This cannot be undone. A probe that sends again comes back, without what was deleted.
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
          Yes, delete for good
        </button>
        <button type="button" disabled={mutation.busy} onClick={() => setAsked(false)}>
          Cancel
        </button>
      </div>
      <Refusal error={mutation.error} />
    </section>
  );
}
