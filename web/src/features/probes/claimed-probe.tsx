/** A probe in its pile: what it says, its offset, and letting it go. */

import { useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { usePrefs } from '../../data/prefs.ts';
import { readNumber } from '../../data/read-number.ts';
import { calibrateProbe, releaseProbe } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { differenceFrom, differenceIn, formatDifference, plainNumber, unitSigns } from '../../ui/format/temperature.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { ProbeHead } from './probe-head.tsx';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

interface ClaimedProbeProps {
  readonly probe: Probe;
  readonly isSilent: boolean;
}

export function ClaimedProbe({ probe, isSilent }: ClaimedProbeProps) {
  const { text, rich } = useProbeWords();
  const { unit } = usePrefs();
  const mutation = useMutation();
  const offset = probe.temperatureOffsetC;
  return (
    <li class="probe">
      <ProbeHead probe={probe} isSilent={isSilent} />
      <May to="keeper">
        <details class="more">
          <summary>
            {rich('page-probes.more', {
              hasOffset: offset !== 0,
              offsetText: formatDifference(offset, unit),
              probeName: probe.probe,
              aloud: (inner) => <span class="unseen">{inner}</span>,
            })}
          </summary>
          <Offset probe={probe} />
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() =>
              mutation.run(async () => {
                await releaseProbe(probe.site, probe.probe);
                await fetchAll();
              })
            }
          >
            {text('page-probes.release')}
          </button>
          <Refusal error={mutation.error} />
        </details>
      </May>
    </li>
  );
}

function Offset({ probe }: { readonly probe: Probe }) {
  const { text } = useProbeWords();
  const { unit } = usePrefs();
  const mutation = useMutation();
  const kept = plainNumber(differenceIn(unit, probe.temperatureOffsetC), 1).replace('\u2212', '-');
  const [typed, setTyped] = useState<string>();
  return (
    <form
      class="form offset-form"
      onSubmit={(event) => {
        event.preventDefault();
        const value = readNumber(typed ?? kept) ?? Number.NaN;
        void mutation
          .run(async () => {
            await calibrateProbe(probe.site, probe.probe, Number(differenceFrom(unit, value).toFixed(3)));
            await fetchAll();
          })
          .then((done) => done && setTyped(undefined));
      }}
    >
      <TextField
        label={text('page-probes.offset')}
        unit={unitSigns[unit]}
        inputMode="text"
        hint={text('page-probes.offset.hint')}
        value={typed ?? kept}
        onValue={setTyped}
        error={mutation.fieldError('/temperatureOffsetC')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" disabled={mutation.busy || typed === undefined}>
        {text('page-probes.offset.keep')}
      </button>
    </form>
  );
}
