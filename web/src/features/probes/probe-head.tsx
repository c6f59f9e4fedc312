/** A probe's name and what it last said. */
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { capital } from '../../ui/format/words.ts';
import { usePositionNames } from '../../ui/mound/use-position-names.ts';
import { lastWords, lineWords } from './probe-facts.ts';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

interface ProbeHeadProps {
  readonly probe: Probe;
  readonly isSilent?: boolean;
}

export function ProbeHead({ probe, isSilent = false }: ProbeHeadProps) {
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const words = useProbeWords();
  const nameOf = usePositionNames();
  const { text, rich } = words;
  const read = lastWords(probe.last, unit);
  const age =
    probe.lastAt === null
      ? text('page-probes.never-heard')
      : text('page-probes.heard', { heardAgoMs: nowMs - Date.parse(probe.lastAt) });
  const pileSite = useInstallation(
    (installation) => installation.piles?.find((pile) => pile.id === probe.claim?.pileId)?.site,
  );
  // The site is named only where the pile does not tell it.
  const name = pileSite === probe.site ? probe.probe : `${probe.site}/${probe.probe}`;
  return (
    <>
      <h3>{probe.claim ? capital(nameOf(probe.claim.position)) : name}</h3>
      <div class="probe-said">
        <p>
          {rich('page-probes.last', {
            isSilent,
            isRead: read !== '',
            readText: read,
            silent: (inner) => <b class="probe-silent">{inner}</b>,
          })}
        </p>
        <p class="facts-line">
          {[
            probe.claim && name,
            probe.device && text('page-probes.from', { deviceName: probe.device.label }),
            age,
            ...lineWords(probe, words),
          ]
            .filter(Boolean)
            .join(', ')}
        </p>
      </div>
    </>
  );
}
