/**
 * web/pages/probes.tsx: every probe that ever talked: those no pile has yet, and those that sit in one.
 */
import type { Probe } from '../../../shared/api/probes.ts';
import { useHouse } from '../live/use-house.ts';
import { usePage } from '../parts/use-page.ts';
import { ClaimedProbe } from '../probes/claimed-probe.tsx';
import { byNewest } from '../probes/probe-facts.ts';
import { UnclaimedProbe } from '../probes/unclaimed-probe.tsx';
import { FirstReading } from './welcome.tsx';

const keyOf = (probe: Probe) => `${probe.site}/${probe.probe}`;

export function ProbesPage() {
  const heading = usePage('Probes');
  const probes = useHouse((house) => house.probes);
  const piles = useHouse((house) => house.piles);
  const unclaimed = probes.filter((probe) => probe.claim === null).sort(byNewest);
  const claimed = probes.filter((probe) => probe.claim !== null);
  const inUse = (piles ?? []).filter((pile) => claimed.some((probe) => probe.claim?.pileId === pile.id));
  const elsewhere = claimed.filter((probe) => !inUse.some((pile) => pile.id === probe.claim?.pileId));
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          Probes
        </h1>
        {probes.length === 0 && <p class="lead">No probe has talked yet. The moment one does, it stands here.</p>}
      </div>
      {unclaimed.length > 0 && (
        <section class="probe-group" aria-labelledby="unclaimed">
          <h2 id="unclaimed">In no pile yet</h2>
          <ul class="probe-list">
            {unclaimed.map((probe) => (
              <UnclaimedProbe key={keyOf(probe)} probe={probe} />
            ))}
          </ul>
        </section>
      )}
      {inUse.map((pile) => (
        <section class="probe-group" key={pile.id} aria-labelledby={`probes-${pile.id}`}>
          <h2 id={`probes-${pile.id}`}>
            <a href={`/piles/${pile.id}`}>{pile.name}</a>
          </h2>
          <ul class="probe-list">
            {claimed
              .filter((probe) => probe.claim?.pileId === pile.id)
              .sort((one, other) => (one.claim?.position ?? '').localeCompare(other.claim?.position ?? ''))
              .map((probe) => (
                <ClaimedProbe key={keyOf(probe)} probe={probe} />
              ))}
          </ul>
        </section>
      ))}
      {elsewhere.length > 0 && (
        <section class="probe-group" aria-labelledby="elsewhere">
          <h2 id="elsewhere">In a pile that is not listed</h2>
          <ul class="probe-list">
            {elsewhere.map((probe) => (
              <ClaimedProbe key={keyOf(probe)} probe={probe} />
            ))}
          </ul>
        </section>
      )}
      <section class="narrow add-probe" aria-labelledby="add-probe">
        <h2 id="add-probe">Let another probe talk</h2>
        <FirstReading />
      </section>
    </div>
  );
}
