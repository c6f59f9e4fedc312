/**
 * web/pages/probes.tsx: every probe that ever talked: those no pile has yet, and those that sit in one.
 */
import type { Probe } from '../../../shared/api/probes.ts';
import { positions } from '../../../shared/names.ts';
import { useHouse } from '../live/use-house.ts';
import { Part } from '../parts/part.tsx';
import { usePage } from '../parts/use-page.ts';
import { May } from '../people/only-for.tsx';
import { ClaimedProbe } from '../probes/claimed-probe.tsx';
import { byNewest, isSilent, probesSentence } from '../probes/probe-facts.ts';
import { UnclaimedProbe } from '../probes/unclaimed-probe.tsx';
import { FirstReading } from './welcome.tsx';

const keyOf = (probe: Probe) => `${probe.site}/${probe.probe}`;

export function ProbesPage() {
  const heading = usePage('Probes');
  const probes = useHouse((house) => house.probes);
  const piles = useHouse((house) => house.piles) ?? [];
  const unclaimed = probes.filter((probe) => probe.claim === null).sort(byNewest);
  const claimed = probes.filter((probe) => probe.claim !== null);
  const elsewhere = claimed.filter((probe) => !piles.some((pile) => pile.id === probe.claim?.pileId));
  const groups = [
    ...piles.map((pile) => ({
      id: pile.id,
      title: <a href={`/piles/${pile.id}`}>{pile.name}</a>,
      probes: claimed.filter((probe) => probe.claim?.pileId === pile.id).sort(byPosition),
    })),
    { id: 'elsewhere', title: 'In a pile that is not listed', probes: elsewhere },
  ].filter((group) => group.probes.length > 0);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {probesSentence(probes, piles)}
        </h1>
        {probes.length === 0 && <p class="lead">The moment one does, it stands here.</p>}
      </div>
      {unclaimed.length > 0 && (
        <Part id="unclaimed" title="In no pile yet">
          <ul class="probe-list">
            {unclaimed.map((probe) => (
              <UnclaimedProbe key={keyOf(probe)} probe={probe} />
            ))}
          </ul>
        </Part>
      )}
      {groups.map((group) => (
        <Part id={`probes-${group.id}`} title={group.title} key={group.id}>
          <ul class="probe-list">
            {group.probes.map((probe) => (
              <ClaimedProbe key={keyOf(probe)} probe={probe} isSilent={isSilent(probe, piles)} />
            ))}
          </ul>
        </Part>
      ))}
      <May to="keeper">
        <Part id="add-probe" title="Let another probe talk">
          <FirstReading />
          <p>
            A probe on another machine needs{' '}
            <May to="owner" otherwise="a key of its own: ask an owner for one.">
              <a href="/keys">a key of its own</a>.
            </May>
          </p>
        </Part>
      </May>
    </div>
  );
}

function byPosition(one: Probe, other: Probe): number {
  const place = (probe: Probe) => (probe.claim ? positions.indexOf(probe.claim.position) : -1);
  return place(one) - place(other);
}
