/**
 * web/probes/unclaimed-probe.tsx: a probe that talks and belongs to no pile, with the form to claim it.
 */

import type { Probe } from '../../../shared/api/probes.ts';
import { May } from '../people/only-for.tsx';
import { ClaimForm } from './claim-form.tsx';
import { ProbeHead } from './probe-head.tsx';

export function UnclaimedProbe({ probe }: { readonly probe: Probe }) {
  return (
    <li class="probe probe-unclaimed">
      <ProbeHead probe={probe} />
      <May to="keeper">
        <ClaimForm probe={probe} />
      </May>
    </li>
  );
}
