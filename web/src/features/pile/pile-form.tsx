/** Makes a pile, and the place it lies at when that is new. */

import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { addEntry, claimProbe, makePile, makeSite } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { CorePick } from '../probes/core-pick.tsx';
import { type BatchDraft, BatchFields, batchBody, emptyBatch } from './batch-fields.tsx';
import { ThermometerPick } from './thermometer-pick.tsx';
import { useLayWords } from './use-lay-words.ts';

const newSite = '';

/** What is typed of a pile to be laid, and laying it: first its place where that is new, then the pile, then its core's probe. */
function useLaying(planned: BatchDraft) {
  const { text } = useLayWords();
  const sites = useInstallation((installation) => installation.sites);
  const { route } = useLocation();
  const place = useMutation();
  const mutation = useMutation();
  const [site, setSite] = useState<string>();
  const [siteName, setSiteName] = useState(text('page-lay.place.usual'));
  const [name, setName] = useState('');
  const [batch, setBatch] = useState(planned);
  const [core, setCore] = useState<Probe | null>(null);
  const [coreC, setCoreC] = useState<number>();
  const chosen = site ?? sites[0]?.id ?? newSite;
  const { timeZone } = useReader(chosen);

  /** The place's id, made first when it is new; undefined when it was refused. */
  const placeId = async (): Promise<string | undefined> => {
    if (chosen !== newSite) return chosen;
    let id: string | undefined;
    await place.run(async () => {
      const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
      id = (await makeSite({ name: siteName, timeZone: zone })).id;
    });
    return id;
  };

  const lay = async () => {
    const siteId = await placeId();
    if (siteId === undefined) return;
    // Should the pile be refused now, the place just made is there to be chosen.
    setSite(siteId);
    await mutation.run(async () => {
      const pile = await makePile({ site: siteId, name, ...batchBody(batch, timeZone) });
      // Should the probe be refused, its pile is there all the same and offers the others.
      if (core) await claimProbe(core.site, core.probe, { pileId: pile.id, position: 'core' }).catch(() => undefined);
      // So that it is judged at once; on the pile's page it can be said again.
      if (coreC !== undefined) {
        const what = { kind: 'measured', position: 'core', temperatureC: coreC } as const;
        await addEntry(pile.id, { what }).catch(() => undefined);
      }
      await fetchAll();
      route(`/piles/${pile.id}`);
    });
  };

  return {
    ...{
      sites,
      chosen,
      setSite,
      siteName,
      setSiteName,
      name,
      setName,
      batch,
      setBatch,
      core,
      setCore,
      coreC,
      setCoreC,
      lay,
    },
    siteNameError: place.fieldError('/name') ?? place.fieldError('/id'),
    error: place.error ?? mutation.error,
    isBusy: place.busy || mutation.busy,
    mutation,
  };
}

interface PileFormProps {
  /** What stands in the fields at first, where it was planned before. */
  readonly planned?: BatchDraft;
  /** What its core is measured with. */
  readonly measures?: 'probe' | 'thermometer';
}

export function PileForm({ planned = emptyBatch, measures = 'probe' }: PileFormProps) {
  const { sites, chosen, batch, mutation, ...laying } = useLaying(planned);
  const { text } = useLayWords();
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        void laying.lay();
      }}
    >
      {sites.length > 0 && (
        <PickField
          label={text('page-lay.place')}
          value={chosen}
          choices={[
            ...sites.map((known) => [known.id, known.name] as const),
            [newSite, text('page-lay.place.new')] as const,
          ]}
          onValue={laying.setSite}
          error={mutation.fieldError('/site')}
        />
      )}
      {chosen === newSite && (
        <TextField
          label={text('page-lay.place.name')}
          hint={text('page-lay.place.name.hint')}
          value={laying.siteName}
          onValue={laying.setSiteName}
          required
          error={laying.siteNameError}
        />
      )}
      <TextField
        label={text('page-lay.name')}
        value={laying.name}
        onValue={laying.setName}
        required
        error={mutation.fieldError('/name')}
      />
      {measures === 'probe' ? (
        <CorePick value={laying.core} onValue={laying.setCore} />
      ) : (
        <ThermometerPick valueC={laying.coreC} onValueC={laying.setCoreC} />
      )}
      <BatchFields draft={batch} onDraft={(change) => laying.setBatch({ ...batch, ...change })} mutation={mutation} />
      <Refusal error={laying.error} />
      <button type="submit" class="primary" disabled={laying.isBusy}>
        {text('page-lay.lay')}
      </button>
    </form>
  );
}
