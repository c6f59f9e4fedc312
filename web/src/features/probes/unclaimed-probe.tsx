/** A probe that talks and belongs to no pile, with the form to claim it. */

import { useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { ClaimForm } from './claim-form.tsx';
import { ForgetProbe } from './forget-probe.tsx';
import { ProbeHead } from './probe-head.tsx';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

interface UnclaimedProbeProps {
  readonly probe: Probe;
  /** Then the form to claim it stands open. */
  readonly isOneOfFew: boolean;
}

export function UnclaimedProbe({ probe, isOneOfFew }: UnclaimedProbeProps) {
  const { rich } = useProbeWords();
  const [isOpen, setOpen] = useState(false);
  return (
    <li class="probe probe-unclaimed">
      <ProbeHead probe={probe} />
      <May to="keeper">
        {isOneOfFew && <ClaimForm probe={probe} />}
        <details class="more" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>
            {rich('page-probes.unclaimed.more', {
              isOneOfFew,
              probeName: probe.probe,
              aloud: (inner) => <span class="unseen">{inner}</span>,
            })}
          </summary>
          {isOpen && !isOneOfFew && <ClaimForm probe={probe} />}
          {isOpen && <ForgetProbe probe={probe} />}
        </details>
      </May>
    </li>
  );
}
