/** Says in which pile a probe sits, and where in it. */
import { useState } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { positionSchema } from '../../../../shared/names.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { claimProbe } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';
import type { positionNames } from '../../ui/format/words.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import './probes.css';

const placeWords = {
  core: 'core: the middle of the heap',
  top: 'top: a hand’s breadth under the skin',
  base: 'base: just above the ground',
  edge: 'edge: in the flank',
  air: 'air: beside the heap, in its shade',
} as const satisfies Record<keyof typeof positionNames, string>;

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
  const [position, setPosition] = useState<keyof typeof placeWords>('core');
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
  const { probe } = props;
  const { piles, chosen, setPileId, since, setSince, position, setPosition, claim, mutation } = useClaim(props);
  if (piles.length === 0) {
    return (
      <p>
        There is no pile yet to claim it for. <a href="/piles/new">Lay one</a>
      </p>
    );
  }
  return (
    <form
      class="form claim-form"
      aria-label={`Claim ${probe.probe}`}
      onSubmit={(event) => {
        event.preventDefault();
        void claim();
      }}
    >
      <PickField
        label="Pile"
        value={chosen}
        choices={piles.map((pile) => [pile.id, pile.name] as const)}
        onValue={setPileId}
        error={mutation.fieldError('/pileId')}
      />
      <PickField
        label="Where it sits"
        value={position}
        choices={positionSchema.options.map((one) => [one, placeWords[one]] as const)}
        onValue={setPosition}
        error={mutation.fieldError('/position')}
      />
      <TextField
        label="Since when, if not from the start"
        type="datetime-local"
        value={since}
        onValue={setSince}
        error={mutation.fieldError('/from')}
      />
      <button type="submit" class="primary" disabled={mutation.busy}>
        Claim it
      </button>
      <Refusal error={mutation.error} />
    </form>
  );
}
