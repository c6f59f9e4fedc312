/** The probes that sit in a pile, a page of them, pile by pile. */
import type { ComponentChildren } from 'preact';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { Pager } from '../../ui/parts/pager.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { ClaimedProbe } from './claimed-probe.tsx';
import { isSilent } from './probe-facts.ts';
import { useProbePage } from './use-probe-page.ts';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

const probesOfAPage = 50;

export function ClaimedProbes({ find }: { readonly find: string }) {
  const { text } = useProbeWords();
  const page = useProbePage({ claimed: 'yes', order: 'pile', find }, probesOfAPage);
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const { value, error, offset, limit } = page;
  if (!value) return error === undefined ? null : <Refusal error={error} />;
  const ofPile = (id: string) => value.probes.filter((probe) => probe.claim?.pileId === id);
  const elsewhere = value.probes.filter((probe) => !piles.some((pile) => pile.id === probe.claim?.pileId));
  const groups: { id: string; title: ComponentChildren; probes: readonly Probe[] }[] = [
    ...piles.map(({ id, name }) => ({ id, title: <a href={`/piles/${id}`}>{name}</a>, probes: ofPile(id) })),
    { id: 'elsewhere', title: text('page-probes.elsewhere'), probes: elsewhere },
  ];
  return (
    <>
      {groups
        .filter((group) => group.probes.length > 0)
        .map((group) => (
          <Part id={`probes-${group.id}`} title={group.title} key={group.id}>
            <ul class="probe-list">
              {group.probes.map((probe) => (
                <ClaimedProbe key={`${probe.site}/${probe.probe}`} probe={probe} isSilent={isSilent(probe, piles)} />
              ))}
            </ul>
          </Part>
        ))}
      <Pager
        label={text('page-probes.pages.claimed')}
        offset={offset}
        limit={limit}
        total={value.total}
        onTurn={page.turnTo}
      />
    </>
  );
}
