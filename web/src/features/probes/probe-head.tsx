/** A probe's name and what it last said. */
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { ageWords } from '../../ui/format/age.ts';
import { capital, positionNames } from '../../ui/format/words.ts';
import { lastWords, lineWords } from './probe-facts.ts';
import './probes.css';

interface ProbeHeadProps {
  readonly probe: Probe;
  readonly isSilent?: boolean;
}

export function ProbeHead({ probe, isSilent = false }: ProbeHeadProps) {
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const age = probe.lastAt === null ? 'never heard' : `heard ${ageWords(nowMs - Date.parse(probe.lastAt))}`;
  const pileSite = useInstallation(
    (installation) => installation.piles?.find((pile) => pile.id === probe.claim?.pileId)?.site,
  );
  // The site is named only where the pile does not tell it.
  const name = pileSite === probe.site ? probe.probe : `${probe.site}/${probe.probe}`;
  return (
    <>
      <h3>{probe.claim ? capital(positionNames[probe.claim.position]) : name}</h3>
      <div class="probe-said">
        <p>
          {isSilent ? <b class="probe-silent">silent, was </b> : null}
          {lastWords(probe.last, unit)}
        </p>
        <p class="facts-line">
          {[probe.claim && name, probe.device && `from ${probe.device.label}`, age, ...lineWords(probe)]
            .filter(Boolean)
            .join(', ')}
        </p>
      </div>
    </>
  );
}
