/**
 * web/probes/probe-head.tsx: a probe's name and what it last said.
 */
import type { Probe } from '../../../shared/api/probes.ts';
import { ageWords } from '../format/age.ts';
import { capital, positionNames } from '../format/words.ts';
import { useHouseNow } from '../live/use-house.ts';
import { usePrefs } from '../prefs.ts';
import { lastWords, lineWords } from './probe-facts.ts';

export function ProbeHead({ probe }: { readonly probe: Probe }) {
  const { unit } = usePrefs();
  const nowMs = useHouseNow();
  const age = probe.lastAt === null ? null : ageWords(nowMs - Date.parse(probe.lastAt));
  return (
    <div class="probe-head">
      <h3>
        {probe.claim && <>{capital(positionNames[probe.claim.position])} </>}
        <span class={probe.claim ? 'probe-name' : undefined}>
          {probe.site}/{probe.probe}
        </span>
      </h3>
      <p class="probe-last">{lastWords(probe.last, unit)}</p>
      <p class="facts-line">{[age, ...lineWords(probe)].filter(Boolean).join(', ')}</p>
    </div>
  );
}
