/** Says in which pile a probe sits, and where in it. */
import { useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { type Position, positionSchema } from '../../../../shared/names.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { claimProbe } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';

import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

interface ClaimFormProps {
  readonly probe: Probe;
  readonly onDone?: () => void;
}

/** A claim as it stands in the form, and making it. */
function useClaim({ probe, onDone }: ClaimFormProps) {
  const mutation = useMutation();
  const piles = useInstallation((installation) => installation.piles) ?? [];
  // A probe most often sits in a pile at the site it talks from.
  const ordered = [...piles].sort((one, other) => Number(other.site === probe.site) - Number(one.site === probe.site));
  const [pileId, setPileId] = useState<string>();
  const [since, setSince] = useState('');
  const { timeZone } = useReader(probe.site);
  const [position, setPosition] = useState<Position>('core');
  const chosen = pileId ?? ordered[0]?.id ?? '';
  const claim = () =>
    mutation
      .run(async () => {
        const fromMs = instantOfWall(since, timeZone);
        await claimProbe(probe.site, probe.probe, {
          pileId: chosen,
          position,
          ...(fromMs === undefined ? {} : { from: toInstant(fromMs) }),
        });
        await fetchAll();
      })
      .then((done) => done && onDone?.());
  return { piles: ordered, chosen, setPileId, since, setSince, position, setPosition, claim, mutation };
}

export function ClaimForm(props: ClaimFormProps) {
  const { text, rich } = useProbeWords();
  const { probe } = props;
  const { piles, chosen, setPileId, since, setSince, position, setPosition, claim, mutation } = useClaim(props);
  if (piles.length === 0) {
    return <p>{rich('page-probes.claim.no-pile', { link: (inner) => <a href="/piles/new">{inner}</a> })}</p>;
  }
  return (
    <form
      class="form claim-form"
      aria-label={text('page-probes.claim.of', { probeName: probe.probe })}
      onSubmit={(event) => {
        event.preventDefault();
        void claim();
      }}
    >
      <PickField
        label={text('page-probes.claim.pile')}
        value={chosen}
        choices={piles.map((pile) => [pile.id, pile.name] as const)}
        onValue={setPileId}
        error={mutation.fieldError('/pileId')}
      />
      <PickField
        label={text('page-probes.claim.position')}
        value={position}
        choices={positionSchema.options.map((one) => [one, text(`page-probes.place.${one}`)] as const)}
        onValue={setPosition}
        error={mutation.fieldError('/position')}
      />
      <TextField
        label={text('page-probes.claim.since')}
        type="datetime-local"
        value={since}
        onValue={setSince}
        error={mutation.fieldError('/from')}
      />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-probes.claim.do')}
      </button>
      <Refusal error={mutation.error} />
    </form>
  );
}
